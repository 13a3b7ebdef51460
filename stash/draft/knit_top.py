"""A knit top without darts: front and back alike but for the neck, sleeves, a neckband.

Widths and depths follow a jersey pattern (korfiati.net/longsleeve-pattern, undated): bust/4 less
what the stretch takes off, neck an arc of neck/6 + 1.5 cm, back neck 2 cm down, armhole
bust/10 + 10.5 cm deep, waist at the back waist less 1 cm. Armhole and sleeve are alike in front and
behind (sewingforaliving.com). The neck is opened until its band stretches over the head.
x runs down from the neck point, y from the centre to the side.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from math import hypot
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import KNIT_TOPS
from stash.draft.cutting_line import FOLD, Edge
from stash.draft.garment import Allowances, Garment, allowances, choice, fit, hem, measure
from stash.draft.geometry import Path, curve, length, line, move, solve, thinned
from stash.draft.knit_ease import (
    KnitOptions,
    Stretched,
    around,
    asked,
    knit_seams,
    knit_thread,
    stretched,
    wants_stretch,
)
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join
from stash.draft.shoulder_opening import (
    LAP_MM,
    ShoulderOpening,
    band_meetings,
    opens,
    passes,
    shoulder_bands,
    snaps,
)
from stash.draft.sleeve import DrawnSleeve, Sleeve, draw_sleeve, sleeve_panel
from stash.errors import InvalidInput
from stash.model import Joined, Mark, MarkKind, Part, Pattern, Point, Role
from stash.notions.interfacing import interfacing_need

ESTIMATES = (
    "bust", "waist", "hip", "neck_base", "shoulder", "back_waist", "waist_to_hip", "arm_length",
    "upper_arm", "wrist", "head",
)
# Jersey for zero ease: common practice, no source; at most 10 %: stitchpaperscissors.com.
PRESUMED_PCT, MOST_OFF_PCT = 20.0, 10.0
ARC_MM, BACK_NECK_MM, ARMHOLE_MM, WAIST_LESS_MM = 15.0, 20.0, 105.0, 10.0  # korfiati.net
# Common practice, no source.
SLOPE, HOLLOW_MM, INSIDE_MM, BAND_SHARE, BAND_MM = 0.36, 14.0, 30.0, 0.9, 20.0
ARC_PULL = 0.5523  # arithmetic: a quarter circle as a curve
CAP_LEAST, CAP_MOST, DEEPEST_MM = 1 / 8, 1 / 3, 90.0
WIDEST_NECK = 0.85  # of the shoulder, what the neck may take of it: chosen here

KnitSleeve = Literal["short", "long", "none"]


@dataclass(frozen=True, kw_only=True)
class KnitTopOptions(KnitOptions):
    """Options of the knit top."""

    length: float | None = measure("finished length from the neck point to the hem", 250, 1200)
    hem: float = hem(20.0)
    ease: float = measure("room beyond what the stretch takes off", 0, 400, 0.0)
    sleeve: KnitSleeve = choice(KnitSleeve, "how long the sleeves are")
    sleeve_length: float | None = measure("finished sleeve from the shoulder seam", 60, 900)
    side: float = fit("take in at each side seam, front and back", -30, 30)
    longer_sleeve: float = fit("lengthen the sleeve, for a longer arm", -60, 60)
    fuller_arm: float = fit("more room round the upper arm", 0, 60)
    opening: ShoulderOpening = choice(
        ShoulderOpening, "the left shoulder opens, where the head wants it"
    )


@dataclass(frozen=True, kw_only=True)
class KnitBlock:
    """What the top is drafted from, mm: half widths and levels below the neck point.

    ``arc`` is how wide the neck is as drawn for the body, ``opened`` as it is cut.
    """

    width: float
    hem_width: float
    arc: float
    opened: float
    shoulder: float
    armhole: float
    waist: float
    down: float
    size: float


@dataclass(frozen=True)
class KnitHalf:
    """Half a front or back: its edges from the neck round to the hem."""

    neck: Path
    shoulder: Path
    armhole: Path
    side: Path
    hem: Path


@dataclass(frozen=True)
class KnitTopLines:
    """Everything drawn before any allowance is added."""

    block: KnitBlock
    cloth: Stretched
    front: KnitHalf
    back: KnitHalf
    sleeve: DrawnSleeve | None
    opens: bool = False

    @property
    def neck_mm(self) -> float:
        """The whole neckline."""
        return around(self.front.neck, self.back.neck)

    @property
    def band_mm(self) -> float:
        """The neckband, shorter than the neck, so that it lies flat."""
        return BAND_SHARE * self.neck_mm

    @property
    def stretched_mm(self) -> float:
        """What passes over the head: the band stretched, and both edges of an open shoulder."""
        own = 2 * length(self.front.shoulder) if self.opens else 0.0
        return self.band_mm * (1 + self.cloth.pct / 100) + own


def block_of(body: Body, cloth: Stretched, ease: float, down: float) -> KnitBlock:
    """The block's measures, before its neck is opened and its armhole deepened."""
    arc = body["neck_base"] / 6 + ARC_MM * min(1.0, body["bust"] / 800)
    width = (cloth.girth(body["bust"]) + ease) / 4
    widest = max(body["hip"], body["waist"])
    return KnitBlock(
        width=width, hem_width=(cloth.girth(widest) + ease) / 4, arc=arc, opened=arc,
        shoulder=body["shoulder"], armhole=body["bust"] / 10 + ARMHOLE_MM * min(
            1.0, body["bust"] / 700),
        waist=body["back_waist"] - WAIST_LESS_MM, down=down, size=min(1.0, body["bust"] / 950),
    )


def draw_half(b: KnitBlock, *, front: bool) -> KnitHalf:
    """The front or the back: they differ at the neck alone."""
    neck: Point = (SLOPE * (b.opened - b.arc), b.opened)
    run = min(b.shoulder / hypot(1, SLOPE), b.width - INSIDE_MM * b.size - b.arc)
    end: Point = (SLOPE * run, b.arc + run)
    deep = b.opened if front else BACK_NECK_MM * b.size
    centre = (neck[0] + deep, 0.0)
    neck_line = curve(
        centre, move(centre, across=ARC_PULL * neck[1]), move(neck, down=ARC_PULL * deep), neck,
    )
    underarm = (b.armhole, b.width)
    drop, hollow = underarm[0] - end[0], HOLLOW_MM * b.size
    inside = end[1] - hollow
    armhole = curve(
        end, move(end, down=0.5 * drop, across=-1.6 * hollow),
        (underarm[0], inside + 0.2 * (underarm[1] - inside)), underarm,
    )
    foot = (b.down, b.hem_width)
    return KnitHalf(
        neck=thinned(neck_line), shoulder=line(neck, end), armhole=thinned(armhole),
        side=line(underarm, foot), hem=line(foot, (b.down, 0.0)),
    )


def draw(body: Body, options: KnitTopOptions) -> KnitTopLines:
    """Front and back, the neck opened for the head, then the sleeve to the armhole."""
    cloth = stretched(options, PRESUMED_PCT, MOST_OFF_PCT)
    plain = block_of(body, cloth, options.ease, _length(body, options))
    plain = replace(
        plain, width=plain.width - options.side, hem_width=plain.hem_width - options.side)
    block, opened = _neck(plain, body, cloth, options.opening)
    if options.sleeve != "none":
        block = _with_room(block, _arm(body, cloth, options))
    front, rear = draw_half(block, front=True), draw_half(block, front=False)
    drawn = KnitTopLines(block, cloth, front, rear, None, opened)
    if options.sleeve == "none":
        return drawn
    return replace(drawn, sleeve=_sleeve(body, options, drawn))


def _length(body: Body, options: KnitTopOptions) -> float:
    asked_mm = options.length or body["back_waist"] + 0.95 * body["waist_to_hip"]
    least = body["bust"] / 10 + ARMHOLE_MM + DEEPEST_MM
    if options.length and asked_mm < least:
        raise InvalidInput(
            "shirt_too_short", asked_measure_mm=asked_mm, least_measure_mm=least, field="length",
        )
    return max(asked_mm, least)


def _neck(
    block: KnitBlock, body: Body, cloth: Stretched, chosen: ShoulderOpening
) -> tuple[KnitBlock, bool]:
    """The neck opened for the head, and whether the left shoulder opens too."""
    if chosen != "left":
        with suppress(InvalidInput):
            pulled_on = _opened(block, body, cloth, open_shoulder=False)
            share = (pulled_on.opened - block.arc) / block.shoulder
            if not opens(chosen, share):
                return pulled_on, False
        if chosen == "none":
            return _opened(block, body, cloth, open_shoulder=False), False
    return _opened(block, body, cloth, open_shoulder=True), True


def _opened(block: KnitBlock, body: Body, cloth: Stretched, *, open_shoulder: bool) -> KnitBlock:
    """The neck wider and deeper until its band, stretched, passes the head; with both edges of an
    open shoulder, where it is to open.
    """
    def over(mm: float) -> float:
        b = replace(block, opened=mm)
        front, rear = draw_half(b, front=True), draw_half(b, front=False)
        drawn = KnitTopLines(b, cloth, front, rear, None, open_shoulder)
        return drawn.stretched_mm - body["head"]

    room = min(block.shoulder, block.width - INSIDE_MM * block.size - block.arc)
    most = block.arc + WIDEST_NECK * room
    if over(most) < 0:
        raise InvalidInput(
            "head_finds_no_way", head_measure_mm=body["head"], bust_measure_mm=body["bust"],
            field="head" if "head" in body.given else "bust",
        )
    return replace(block, opened=solve(over, block.arc, most))


def _arm(body: Body, cloth: Stretched, options: KnitTopOptions) -> float:
    """Round the sleeve at the underarm."""
    return cloth.girth(body["upper_arm"]) + options.ease / 4 + options.fuller_arm


def _cap(block: KnitBlock, share: float) -> Sleeve:
    """A sleeve alike before and behind; its cap has no ease."""
    half = length(draw_half(block, front=True).armhole)
    high = share * 2 * half
    return Sleeve(
        back_armhole=half, front_armhole=half, length=high + 1, hem_girth=1.0, ease=0.0,
        height=high, alike=True,
    )


def _with_room(block: KnitBlock, girth: float) -> KnitBlock:
    """The armhole deepened where a low cap would else be tight on the arm."""

    def room(mm: float) -> float:
        deep = replace(block, armhole=block.armhole + mm)
        return draw_sleeve(_cap(deep, CAP_LEAST)).girth_mm - girth

    if room(0.0) >= 0:
        return block
    most = min(DEEPEST_MM, 0.6 * (block.down - block.armhole))
    if room(most) < 0:
        raise InvalidInput("arm_too_big_for_armhole", arm_measure_mm=girth, field="upper_arm")
    return replace(block, armhole=block.armhole + solve(room, 0.0, most))


def _sleeve(body: Body, options: KnitTopOptions, drawn: KnitTopLines) -> DrawnSleeve:
    girth = _arm(body, drawn.cloth, options)
    share = solve(
        lambda s: girth - draw_sleeve(_cap(drawn.block, s)).girth_mm, CAP_LEAST, CAP_MOST)
    cap = _cap(drawn.block, share)
    long, least = options.sleeve == "long", cap.cap + 20
    usual = max((1.0 if long else 0.33) * body["arm_length"], least)
    down = (options.sleeve_length or usual) + options.longer_sleeve
    if down < least:
        raise InvalidInput(
            "sleeve_too_short", sleeve_measure_mm=down, least_measure_mm=least,
            field="sleeve_length",
        )
    wrist = drawn.cloth.girth(body["wrist"]) + 30 * drawn.block.size + options.ease / 4
    hem_mm = wrist if long else 0.94 * girth
    return draw_sleeve(replace(cap, length=down, hem_girth=min(hem_mm, girth)))


def draft(body: Body, options: KnitTopOptions) -> Pattern:
    """Draw, then cut out."""
    options = replace(options, length=_length(body, options))
    drawn = draw(body, options)
    panels = _panels(drawn, options)
    pieces = tuple(p.piece() for p in panels)
    joins, finish = _joins(drawn), options.finish
    needs = [*knit_thread(joins, finish)]
    if drawn.opens:
        needs += [snaps(length(drawn.front.shoulder)), interfacing_need(
            [p for p in pieces if p.role is Role.INTERFACING])]
    return Pattern(
        garment="knit-top", pieces=pieces, notions=tuple(needs), seams=knit_seams(joins, finish),
        joins=_meetings(drawn, panels), wants=wants_stretch(KNIT_TOPS, drawn.cloth),
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, buttons=drawn.opens),
        facts=(*asked(drawn.cloth), passes(
            drawn.stretched_mm, body["head"], opened=drawn.opens)),
    )


def _panels(drawn: KnitTopLines, options: KnitTopOptions) -> list[Panel]:
    allow = allowances(options)
    halves = (Part.FRONT, drawn.front), (Part.BACK, drawn.back)
    panels = [_half_panel(part, half, allow) for part, half in halves]
    neckband = _band("neckband", drawn.band_mm + (LAP_MM if drawn.opens else 0.0), allow.seam)
    if drawn.opens:
        panels += shoulder_bands(length(drawn.front.shoulder), allow.seam)
    if drawn.sleeve:
        return [*panels, sleeve_panel(drawn.sleeve, allow), neckband]
    arm = BAND_SHARE * 2 * length(drawn.front.armhole)
    two = Cutting(quantity=2, part=Part.BINDING)
    return [*panels, neckband, replace(_band("armhole band", arm, allow.seam), cutting=two)]


def _half_panel(part: Part, half: KnitHalf, allow: Allowances) -> Panel:
    edges = (
        Edge("neck", half.neck, allow.seam), Edge("shoulder", half.shoulder, allow.seam),
        Edge("armhole", half.armhole, allow.seam), Edge("side", half.side, allow.seam),
        Edge("hem", half.hem, allow.hem, turned=allow.hem > 0),
        Edge(FOLD, line(half.hem[-1], half.neck[0])),
    )
    snips = ("side", 0.5 * length(half.side)), ("armhole", 0.6 * length(half.armhole))
    front = part is Part.FRONT
    return Panel(
        name=part.value, edges=edges, cutting=Cutting(part=part), on_fold=True,
        notches=(("neck", 0.0), *snips) if front else (("neck", 0.0),),
        doubles=() if front else snips, match=(half.armhole[-1][0], 0.0),
    )


def _band(name: str, long: float, seam: float) -> Panel:
    """A band doubled over its fold; its length lies across the cloth, where that stretches."""
    band = rectangle(
        name, (2 * BAND_MM, long), Turnings(seam, seam, seam), Cutting(part=Part.BINDING))
    quarters = tuple(("top", share * long) for share in (0.25, 0.5, 0.75))
    return band.marked(
        (Mark(MarkKind.FOLD, line((BAND_MM, 0.0), (BAND_MM, long))),), notches=quarters)


def _meetings(drawn: KnitTopLines, panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Shoulder, side, cap without ease, and the neck stretched onto its band by a tenth."""
    by_name = {p.name: p for p in panels}
    front, rear = by_name["front"], by_name["back"]
    joins = [joined((rear, edge), (front, edge)) for edge in ("shoulder", "side")]
    if drawn.opens:
        joins += band_meetings(length(drawn.front.shoulder))
    joins += [
        Joined((p.name, "neck"), ("neckband", "top"), p.length("neck"),
               BAND_SHARE * p.length("neck"))
        for p in (front, rear)
    ]
    if drawn.sleeve is None:
        return (*joins, *(
            Joined((p.name, "armhole"), ("armhole band", "top"), p.length("armhole"),
                   BAND_SHARE * p.length("armhole")) for p in (front, rear)))
    sleeve = drawn.sleeve
    return (
        *joins, joined((by_name["sleeve"], "back seam"), (by_name["sleeve"], "front seam")),
        Joined(("sleeve", "cap"), ("front", "armhole"), length(sleeve.front_cap),
               front.length("armhole")),
        Joined(("sleeve", "cap"), ("back", "armhole"), length(sleeve.back_cap),
               rear.length("armhole")),
    )


def _joins(drawn: KnitTopLines) -> list[Join]:
    front, sleeve = drawn.front, drawn.sleeve
    joins = [
        Join("shoulder", length(front.shoulder), 2), Join("side", length(front.side), 2),
        Join("armhole", 2 * length(front.armhole), 2), Join("neckband", drawn.neck_mm, 1),
        Join("hem", around(front.hem, drawn.back.hem), 1, 0),
    ]
    if drawn.opens:
        joins.append(Join("shoulder opening", length(front.shoulder), 4, 0))
    if sleeve:
        joins += [Join("sleeve seam", length(sleeve.front_seam), 2),
                  Join("sleeve hem", length(sleeve.hem), 2, 0)]
    return joins


GARMENT = Garment(
    name="knit-top", title="Knit top", measurements=("bust|chest",), estimates=ESTIMATES,
    takes=KnitTopOptions, draft=draft,
)
