"""A shirt with a yoke, a collar on a stand, button bands, and sleeves pleated into cuffs.

1. Draw back and front (``bodice``), the neck as long as the body's and its ease.
2. Cut both at the yoke's lines and lay the strips together (``yoke``).
3. Cut the front at the band; draw stand and fall to the neck (``stand_collar``).
4. Measure the armholes over the yoke and draw the sleeve, its cuff and its placket
   (``cuffed_sleeve``).
5. Space the buttons below the stand; one more closes the stand, two each sleeve.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.bodice import Bodice, Half, bodice_for, chest_centre, draw_back, draw_front
from stash.draft.body import Body
from stash.draft.button_marks import button_marks
from stash.draft.cloth_wants import SHIRTS
from stash.draft.cuffed_sleeve import (
    ShirtCuff,
    cuff_for,
    cuff_panel,
    cuffed_sleeve_panel,
    placket_panels,
    pleat_marks,
)
from stash.draft.cutting_line import FOLD, Edge
from stash.draft.garment import Garment, Sewn, allowances, choice, fit, hem, measure, seam_of
from stash.draft.geometry import Path, curve, join, length, line, move, shifted, solve
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.pockets import patch_pocket, pocket_mark
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.shirt_sleeve import fuller, with_arm_room
from stash.draft.sleeve import DrawnSleeve, Sleeve, draw_sleeve
from stash.draft.stand_collar import CollarStand, draw_stand, fall_panel, stand_panel
from stash.draft.yoke import Yoke, draw_yoke, yoke_down_mm, yoke_panel
from stash.errors import InvalidInput
from stash.model import Closure, Joined, Mark, MarkKind, Need, Part, Pattern, Role
from stash.notions.buttons import SHIRT_BUTTON_MM, best_count, button_need, loose_button_need
from stash.notions.interfacing import interfacing_need

ESTIMATES = (
    "bust", "hip", "neck_base", "back_width", "shoulder", "scye_depth", "back_waist",
    "waist_to_hip", "arm_length", "upper_arm", "wrist",
)
# Common practice, no source.
BAND_MM, COLLAR_EASE_MM, FIRST_MM, DROP_SHOULDER_MM = 35.0, 20.0, 65.0, 20.0
PLEAT_MM, PLEAT_LONG_MM = 25.0, 70.0
POCKET_MM = (115.0, 130.0)
LOOSE_BUTTONS = 5  # one on the stand; on each sleeve one on the cuff and one on the placket

Pockets = Literal["patch", "none"]
BackFold = Literal["plain", "pleat"]


@dataclass(frozen=True, kw_only=True)
class YokeShirtOptions(Sewn):
    """Options of the shirt with a yoke."""

    length: float | None = measure("finished length from the nape to the hem", 250, 1500)
    hem: float = hem(20.0)
    ease: float | None = measure("ease round the bust: usually 160 mm", 80, 400)
    back: BackFold = choice(BackFold, "the back below the yoke: plain, or a pleat at the centre")
    pockets: Pockets = choice(Pockets, "a breast pocket")
    sleeve_length: float | None = measure("sleeve with its cuff from the shoulder seam", 200, 900)
    full_bust: float = fit("room for a full bust: wider and longer in the front", 0, 80)
    side: float = fit("take in at each side seam, front and back", -30, 30)
    sway_back: float = fit("shorten the centre back, for a sway back", 0, 40)
    round_back: float = fit("raise the back neck, for a rounded back", 0, 12)
    longer_sleeve: float = fit("lengthen the sleeve, for a longer arm", -60, 60)
    fuller_arm: float = fit("more room round the upper arm", 0, 60)
    seam_side: float | None = seam_of("side")
    seam_armhole: float | None = seam_of("armhole")
    seam_neck: float | None = seam_of("neck")


@dataclass(frozen=True)
class YokeShirtLines:
    """Everything drawn before any allowance is added."""

    bodice: Bodice
    back: Half
    front: Half
    yoke: Yoke
    stand: CollarStand
    sleeve: DrawnSleeve
    cuff: ShirtCuff

    @property
    def neck_mm(self) -> float:
        """Half the neckline, from the centre back to the centre front."""
        return length(self.yoke.neck) + length(self.yoke.front_neck) + BAND_MM / 2

    @property
    def armholes_mm(self) -> tuple[float, float]:
        """The armhole behind the shoulder and before it, over the yoke."""
        return armholes_of(self.yoke, self.back, self.front)


def draft(body: Body, options: YokeShirtOptions) -> Pattern:
    """Draw, then cut out."""
    options = replace(options, length=_length(body, options))
    drawn = draw(body, options)
    panels = _panels(drawn, options)
    pieces = tuple(p.piece() for p in panels)
    joins, finish, closure = _joins(drawn), options.finish, closure_of(drawn)
    count = best_count(closure)
    needs: list[Need] = [
        button_need(closure, count=count),
        loose_button_need(LOOSE_BUTTONS, SHIRT_BUTTON_MM, "collar stand and sleeves"),
        interfacing_need([p for p in pieces if p.role is Role.INTERFACING]),
        *sewing_needs(joins, finish, buttonholes=count + LOOSE_BUTTONS),
    ]
    return Pattern(
        garment="yoke-shirt", pieces=pieces, notions=tuple(needs), seams=seams(joins, finish),
        joins=_meetings(drawn, panels), wants=SHIRTS, closure=closure,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, buttons=True),
    )


def _length(body: Body, options: YokeShirtOptions) -> float:
    least = body["scye_depth"] + 140
    usual = max(body["back_waist"] + 1.25 * body["waist_to_hip"], least)
    asked = options.length or usual
    if asked < least:
        raise InvalidInput(
            "shirt_too_short", asked_measure_mm=asked, least_measure_mm=least, field="length",
        )
    return asked


def draw(body: Body, options: YokeShirtOptions) -> YokeShirtLines:
    """Back, front and yoke, then stand and sleeve to what they are sewn to."""
    ease = options.ease or min(160.0, 0.17 * body["bust"])
    plain = with_arm_room(bodice_for(
        body, length=_length(body, options), ease=ease, full_bust=options.full_bust,
        side=options.side, drop_shoulder=DROP_SHOULDER_MM, sway_back=options.sway_back,
        round_back=options.round_back,
    ), body["upper_arm"])
    wanted = body["neck_base"] + COLLAR_EASE_MM * plain.size
    bodice = replace(plain, neck_widen=solve(
        lambda mm: 2 * _half_neck(replace(plain, neck_widen=mm)) - wanted, -30.0, 60.0))
    rear, front = draw_back(bodice), _banded(draw_front(bodice))
    yoke = draw_yoke(rear, front, yoke_down_mm(body["back_waist"], bodice.size), bodice.size)
    neck = length(yoke.neck) + length(yoke.front_neck) + BAND_MM / 2
    stand = draw_stand(neck, BAND_MM / 2, bodice.size)
    beyond = length(rear.shoulder) - body["shoulder"]
    sleeve, cuff = _sleeve(body, options, armholes_of(yoke, rear, front), beyond)
    return YokeShirtLines(bodice, rear, front, yoke, stand, sleeve, cuff)


def armholes_of(yoke: Yoke, rear: Half, front: Half) -> tuple[float, float]:
    """Behind the shoulder and before it, mm: what the yoke's dart took out is not there."""
    before = length(front.armhole)
    whole = sum(map(length, (yoke.armhole, yoke.back_armhole, yoke.front_armhole)))
    return whole - before, before


def _half_neck(bodice: Bodice) -> float:
    return length(draw_back(bodice).neck) + length(_banded(draw_front(bodice)).neck) + BAND_MM / 2


def _banded(front: Half) -> Half:
    """The front cut at the seam of its band: its neck begins there, square to the centre."""
    neck = front.points["neck"]
    start = (front.points["centre"][0], BAND_MM / 2)
    deep = start[0] - neck[0]
    path = curve(
        start, move(start, across=0.6 * (neck[1] - start[1])), move(neck, down=0.55 * deep), neck,
    )
    return replace(front, neck=path)


def _sleeve(
    body: Body, options: YokeShirtOptions, armholes: tuple[float, float], beyond: float
) -> tuple[DrawnSleeve, ShirtCuff]:
    """The sleeve to the armholes as they are over the yoke; shorter by its cuff.

    ``beyond`` is what the shoulder is longer than the body's.
    """
    plain = fuller(Sleeve(
        back_armhole=armholes[0], front_armhole=armholes[1], length=0.0, hem_girth=0.0,
    ), options.fuller_arm)
    girth = draw_sleeve(replace(plain, length=plain.cap + 1, hem_girth=1.0)).girth_mm
    cuff = cuff_for(body, girth)
    least = plain.cap + 60 + cuff.deep
    usual = max(body["arm_length"] - beyond + 10, least)
    long = (options.sleeve_length or usual) + options.longer_sleeve
    if long < least:
        raise InvalidInput(
            "sleeve_too_short", sleeve_measure_mm=long, least_measure_mm=least,
            field="sleeve_length",
        )
    cuff = replace(cuff, slit=min(cuff.slit, 0.7 * (long - cuff.deep - plain.cap)))
    return draw_sleeve(replace(plain, length=long - cuff.deep, hem_girth=cuff.hem)), cuff


def _panels(drawn: YokeShirtLines, options: YokeShirtOptions) -> list[Panel]:
    """Every panel, interfacing included."""
    allow, size = allowances(options), drawn.bodice.size
    stand = stand_panel(drawn.stand, allow, SHIRT_BUTTON_MM, length(drawn.back.neck))
    fall = fall_panel(length(drawn.stand.upper), allow, size)
    cuff = cuff_panel(drawn.cuff, allow.seam, SHIRT_BUTTON_MM)
    band = _band(drawn, options)
    moved_on = length(drawn.front.armhole) - length(drawn.yoke.front_armhole)
    panels = [
        _front(drawn, options), _back(drawn, options), yoke_panel(drawn.yoke, allow, moved_on),
        cuffed_sleeve_panel(drawn.sleeve, drawn.cuff, allow), stand, fall, band, cuff,
        *placket_panels(drawn.cuff, allow.seam),
        stand.fused("stand interfacing", 1), fall.fused("collar interfacing", 1),
        band.fused("band interfacing", 2), cuff.fused("cuff interfacing", 2),
    ]
    if options.pockets == "patch":
        wide, deep = (mm * size for mm in POCKET_MM)
        panels.append(patch_pocket("pocket", wide, deep, allow.seam))
    return panels


def _front(drawn: YokeShirtLines, options: YokeShirtOptions) -> Panel:
    allow, front, yoke = allowances(options), drawn.front, drawn.yoke
    start, foot = yoke.front_neck[0], (front.points["hem"][0], BAND_MM / 2)
    edges = (
        Edge("neck", yoke.front_neck, allow.at("neck")), Edge("yoke", yoke.front_top, allow.seam),
        Edge("armhole", yoke.front_armhole, allow.at("armhole")),
        Edge("side", front.side, allow.at("side")),
        Edge("hem", line(front.points["hem side"], foot), allow.hem, turned=allow.hem > 0),
        Edge("band", line(foot, start), allow.seam),
    )
    return Panel(
        name="front", edges=edges, cutting=Cutting(quantity=2, pair=True, part=Part.FRONT),
        notches=(
            ("yoke", 0.5 * length(yoke.front_top)),
            ("armhole", length(yoke.front_armhole) - 0.4 * length(front.armhole)),
            ("side", 0.5 * length(front.side)),
        ),
        match=chest_centre_beside(front), marks=_pocket(drawn, options),
    )


def chest_centre_beside(front: Half) -> tuple[float, float]:
    """The seam of the band at the underarm: there stripes of back and fronts meet."""
    return chest_centre(front)[0], BAND_MM / 2


def _pocket(drawn: YokeShirtLines, options: YokeShirtOptions) -> tuple[Mark, ...]:
    """A patch below the armhole's level, about the middle of the front (common practice)."""
    if options.pockets != "patch":
        return ()
    wide, deep = (mm * drawn.bodice.size for mm in POCKET_MM)
    down, out = drawn.front.points["underarm"]
    return (pocket_mark((down - 20 * drawn.bodice.size, 0.54 * out - wide / 2), wide, deep),)


def _back(drawn: YokeShirtLines, options: YokeShirtOptions) -> Panel:
    """The back on the fold below the yoke; a pleat lies beyond the centre line."""
    allow, rear, yoke = allowances(options), drawn.back, drawn.yoke
    more = PLEAT_MM * drawn.bodice.size if options.back == "pleat" else 0.0

    def out(path: Path) -> Path:
        return shifted(path, across=more)

    top = yoke.back_top[0]
    edges = (
        Edge("yoke", join(line(top, move(top, across=more)), out(yoke.back_top)), allow.seam),
        Edge("armhole", out(yoke.back_armhole), allow.at("armhole")),
        Edge("side", out(rear.side), allow.at("side")),
        Edge("hem", join(out(rear.hem), line((rear.hem[-1][0], more), rear.hem[-1])), allow.hem,
             turned=allow.hem > 0),
        Edge(FOLD, line(rear.hem[-1], top)),
    )
    foot = move(top, down=PLEAT_LONG_MM * drawn.bodice.size)
    pleat = pleat_marks(move(foot, across=more), move(top, across=more), -more) if more else ()
    return Panel(
        name="back", edges=edges, cutting=Cutting(part=Part.BACK), on_fold=True,
        doubles=(
            ("yoke", more + 0.5 * length(yoke.back_top)),
            ("armhole", length(yoke.back_armhole) - 0.4 * length(rear.armhole)),
            ("side", 0.5 * length(rear.side)),
        ),
        marks=tuple(pleat), match=(rear.points["underarm"][0], 0.0),
    )


def _band(drawn: YokeShirtLines, options: YokeShirtOptions) -> Panel:
    """A band for each front, doubled over its fold; buttons and holes along its middle."""
    long, closure = drawn.front.points["hem"][0] - drawn.yoke.front_neck[0][0], closure_of(drawn)
    seam = options.seam
    band = rectangle(
        "button band", (long, 2 * BAND_MM), Turnings(seam, options.hem, seam),
        Cutting(quantity=2, part=Part.BAND),
    )
    fold = Mark(MarkKind.FOLD, line((0.0, BAND_MM), (long, BAND_MM)))
    buttons = button_marks(
        closure, best_count(closure), SHIRT_BUTTON_MM, (0.0, BAND_MM / 2), across=False
    )
    return band.marked((fold, *buttons))


def closure_of(drawn: YokeShirtLines) -> Closure:
    """The buttoned front, from below the stand to 9 cm above the hem.

    The bust lies 3 cm below the scye line (common practice, no source).
    """
    centre, hem_down = drawn.front.points["centre"][0], drawn.front.points["hem"][0]
    whole, size = hem_down - centre, drawn.bodice.size
    return Closure(
        length_mm=whole, bust_mm=drawn.bodice.scye_depth + 30 * size - centre,
        overlap_mm=BAND_MM / 2, first_mm=FIRST_MM * size, last_mm=whole - min(90.0, 0.2 * whole),
    )


def _meetings(drawn: YokeShirtLines, panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Which edge is sewn to which: pleats folded, laps counted, the cap with its ease."""
    by_name = {p.name: p for p in panels}
    front, back, yoke, sleeve = (by_name[n] for n in ("front", "back", "yoke", "sleeve"))
    stand, band, cuff = by_name["collar stand"], by_name["button band"], drawn.cuff
    neck, around = stand.length("neck"), sum(drawn.armholes_mm)
    cap, parts = sleeve.length("cap"), [(p, p.length("armhole")) for p in (front, yoke, back)]
    meets = [("yoke", "neck", yoke.length("neck")), ("front", "neck", front.length("neck")),
             ("button band", "top", BAND_MM)]
    rest = sum(mm for _, _, mm in meets)
    return (
        joined((front, "yoke"), (yoke, "front")),
        Joined(("back", "yoke"), ("yoke", "back"), length(drawn.yoke.back_top),
               yoke.length("back")),
        joined((back, "side"), (front, "side")), joined((band, "side"), (front, "band")),
        joined((sleeve, "back seam"), (sleeve, "front seam")),
        *(Joined(("sleeve", "cap"), (p.name, "armhole"), cap * mm / around, mm)
          for p, mm in parts),
        *(Joined(("collar stand", "neck"), (name, edge), neck - rest + mm, mm)
          for name, edge, mm in meets),
        joined((by_name["collar"], "neck"), (stand, "upper")),
        Joined(("sleeve", "hem"), ("cuff", "side"), cuff.hem - cuff.taken + cuff.laps, cuff.long),
    )


def _joins(drawn: YokeShirtLines) -> list[Join]:
    """Every seam, its parts of both sides counted."""
    yoke, cuff, sleeve = drawn.yoke, drawn.cuff, drawn.sleeve
    around = 2 * (length(drawn.back.hem) + length(drawn.front.hem))
    stand = length(drawn.stand.neck) + length(drawn.stand.upper) + length(drawn.stand.end)
    return [
        Join("yoke seams", 2 * (length(yoke.front_top) + length(yoke.back_top)), 2, 0),
        Join("side", length(drawn.front.side), 2), Join("armhole", sum(drawn.armholes_mm), 2),
        Join("sleeve seam", length(sleeve.front_seam), 2), Join("collar and stand", stand, 4, 0),
        Join("button bands", drawn.front.points["hem"][0] - drawn.front.points["centre"][0], 4, 0),
        Join("cuffs", 2 * (cuff.long + cuff.deep), 4, 0), Join("plackets", cuff.slit, 8, 0),
        Join("hem", around, 1, 0),
    ]


GARMENT = Garment(
    name="yoke-shirt", title="Shirt with yoke, stand collar and cuffs",
    measurements=("bust|chest",), estimates=ESTIMATES, takes=YokeShirtOptions, draft=draft,
)
