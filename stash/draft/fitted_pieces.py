"""Cutting out a fitted bodice: panels, facings or lining, sleeves; for a bodice and a dress.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.draft.body import Body
from stash.draft.cutting_line import FOLD, Edge
from stash.draft.edge_facing import FacingCut, facing_from
from stash.draft.fitted_block import FittedBlock, FittedHalf, block_for, draw_back, draw_front
from stash.draft.garment import Allowances, allowances, choice, fit, measure, seam_of
from stash.draft.geometry import back, length
from stash.draft.lining import Lining, lining_of
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.set_in_sleeve import (
    ARM_EASE_MM,
    Arm,
    Armholes,
    SetInOptions,
    set_in_sleeve,
    with_room,
)
from stash.draft.sewing import Join
from stash.draft.sleeve import DrawnSleeve, sleeve_panel
from stash.model import Joined, Mark, MarkKind, Part

# Common practice, no source, where none is named.
FACING_MM, ARMHOLE_FACING_MM = 50.0, 40.0
WAIST_EASE_SHARE = 0.6  # of the bust's ease: Sewing Lab Milano, lesson 3
SLEEVELESS_UP_MM = 12.0  # an armhole without a sleeve is cut higher
NOTCH_ABOVE_WAIST_MM = 60.0


@dataclass(frozen=True, kw_only=True)
class FittedOptions(SetInOptions):
    """Options of what is drawn from the fitted block."""

    ease: float = measure(
        "ease round the bust", 30, 200, 80.0,
        source="Sewing Lab Milano, lesson 3: 8 cm in all",
    )
    waist_ease: float | None = measure(
        "ease round the waist: usually 0.6 of the ease round the bust", 10, 200,
        source="Sewing Lab Milano, lesson 3: 0.6 to 1 of the bust's",
    )
    bust_dart: float | None = measure(
        "width of the bust dart at the side: from the front waist length, else 4 % of the bust",
        0, 120,
    )
    neck_drop: float = measure("lower the neck at the centre front", 0, 120, 0.0)
    lining: Lining = choice(Lining, "a lining")
    full_bust: float = fit("room for a full bust: wider in the front, with a deeper dart", 0, 80)
    side: float = fit("take in at each side seam, front and back", -30, 30)
    sway_back: float = fit("shorten the centre back, for a sway back", 0, 30)
    round_back: float = fit("raise the back neck, for a rounded back", 0, 12)
    bust_down: float = fit("lower the bust point", -30, 40)
    dart_length: float = fit("longer waist darts, or shorter ones", -30, 30)
    longer_sleeve: float = fit("lengthen the sleeve, for a longer arm", -60, 60)
    fuller_arm: float = fit("more room round the upper arm", 0, 40)
    seam_side: float | None = seam_of("side")
    seam_shoulder: float | None = seam_of("shoulder")
    seam_armhole: float | None = seam_of("armhole")
    seam_neck: float | None = seam_of("neck")


@dataclass(frozen=True)
class FittedLines:
    """Everything of a bodice drawn before any allowance is added."""

    block: FittedBlock
    back: FittedHalf
    front: FittedHalf
    sleeve: DrawnSleeve | None

    @property
    def armholes(self) -> Armholes:
        """Both halves of the armhole."""
        return Armholes(self.back.armhole, self.front.armhole)


def ease_mm(body: Body, options: FittedOptions) -> float:
    """Ease round the bust: as asked, less in proportion on a child."""
    return options.ease * min(1.0, body["bust"] / 800)


def waists_mm(body: Body, options: FittedOptions) -> tuple[float, float]:
    """Half the front's and half the back's waist as sewn, with its ease.

    The front's is 1 cm more than the back's (common practice, no source).
    """
    ease = options.waist_ease
    if ease is None:
        ease = WAIST_EASE_SHARE * ease_mm(body, options)
    quarter = (body["waist"] + ease) / 4
    return quarter + 5.0, quarter - 5.0


def draw_fitted(
    body: Body, options: FittedOptions, waists: tuple[float, float]
) -> FittedLines:
    """Back and front to these waists, then the sleeve to the armholes."""
    block = block_for(
        body, ease=ease_mm(body, options), waists=waists, neck_drop=options.neck_drop,
        full_bust=options.full_bust, side=options.side, sway_back=options.sway_back,
        round_back=options.round_back, bust_down=options.bust_down,
        dart_more=options.dart_length,
        dart=-1.0 if options.bust_dart is None else options.bust_dart,
    )
    if options.sleeve == "none":
        block = replace(block, chest_down=block.chest_down - SLEEVELESS_UP_MM * block.size)
        rear = draw_back(block)
        return FittedLines(block, rear, draw_front(block, rear), None)
    size = min(1.0, body["upper_arm"] / 300)
    girth = body["upper_arm"] + options.fuller_arm + ARM_EASE_MM * size
    arm = girth, options.cap_ease * size
    block = with_room(block, _deeper, _armholes, arm)
    rear = draw_back(block)
    drawn = FittedLines(block, rear, draw_front(block, rear), None)
    beyond = length(rear.shoulder) - body["shoulder"]
    return replace(drawn, sleeve=set_in_sleeve(options, drawn.armholes, Arm(
        long=body["arm_length"] - beyond, round=body["upper_arm"] + options.fuller_arm,
        wrist=body["wrist"], longer=options.longer_sleeve, size=size)))


def _deeper(block: FittedBlock, mm: float) -> FittedBlock:
    return replace(block, chest_down=block.chest_down + mm)


def _armholes(block: FittedBlock) -> Armholes:
    rear = draw_back(block)
    return Armholes(rear.armhole, draw_front(block, rear).armhole)


def front_panel(drawn: FittedLines, allow: Allowances, waist_mm: float) -> Panel:
    """The front on the fold; ``waist_mm`` is allowed at its waist."""
    half = drawn.front
    return Panel(
        name="front", on_fold=True, cutting=Cutting(part=Part.FRONT),
        edges=(*_edges(half, allow, waist_mm), Edge(FOLD, half.centre)),
        notches=(
            ("neck", 0.0), ("armhole", 0.6 * length(half.armhole)),
            ("side", length(half.side) - NOTCH_ABOVE_WAIST_MM * drawn.block.size),
        ),
        marks=(*_darts(half), Mark(MarkKind.BUST, (drawn.block.bust_point,))),
        match=(half.points["underarm"][0], 0.0),
    )


def back_panel(
    drawn: FittedLines, allow: Allowances, waist_mm: float, opening_mm: float | None = None
) -> Panel:
    """The back, cut as a pair, open at the centre down to a notch where it is sewn on below."""
    half = drawn.back
    centre = Edge("centre back", half.centre, allow.at("centre back"))
    stop = () if opening_mm is None else (("centre back", length(half.centre) - opening_mm),)
    return Panel(
        name="back", cutting=Cutting(quantity=2, pair=True, part=Part.BACK),
        edges=(*_edges(half, allow, waist_mm), centre),
        notches=stop, doubles=(
            ("armhole", 0.6 * length(half.armhole)),
            ("side", length(half.side) - NOTCH_ABOVE_WAIST_MM * drawn.block.size),
        ),
        marks=_darts(half), match=(half.points["underarm"][0], 0.0),
    )


def _edges(half: FittedHalf, allow: Allowances, waist_mm: float) -> tuple[Edge, ...]:
    return (
        Edge("neck", half.neck, allow.at("neck")),
        Edge("shoulder", half.shoulder, allow.at("shoulder")),
        Edge("armhole", half.armhole, allow.at("armhole")),
        Edge("side", half.side, allow.at("side")),
        Edge("waist", back(half.waist.path), waist_mm),
    )


def _darts(half: FittedHalf) -> tuple[Mark, ...]:
    return tuple(Mark(MarkKind.DART, d.mark) for d in half.darts)


def bodice_panels(
    drawn: FittedLines, options: FittedOptions, waist_mm: float
) -> list[Panel]:
    """Front, back and sleeves with their lining, or with facings for what is not lined."""
    allow = allowances(options)
    front, rear = front_panel(drawn, allow, waist_mm), back_panel(drawn, allow, waist_mm)
    panels = [front, rear]
    if drawn.sleeve:
        panels.append(sleeve_panel(drawn.sleeve, allow))
    if options.lining == "full":
        return [*panels, *map(lining_of, panels)]
    return [*panels, *_facings(front, rear, drawn)]


def _facings(front: Panel, rear: Panel, drawn: FittedLines) -> list[Panel]:
    """Neck facings, and armhole facings where there is no sleeve; each with its interfacing."""
    size, pair = drawn.block.size, Cutting(quantity=2, pair=True, part=Part.FACING)
    deep, beside = FACING_MM * size, ARMHOLE_FACING_MM * size
    cuts = [
        (front, "neck", FacingCut(name="front facing", deep_mm=deep, on_fold=True)),
        (rear, "neck", FacingCut(name="back facing", deep_mm=deep, cutting=pair)),
    ]
    if drawn.sleeve is None:
        cuts += [
            (front, "armhole", FacingCut(
                name="front armhole facing", deep_mm=beside, cutting=pair)),
            (rear, "armhole", FacingCut(name="back armhole facing", deep_mm=beside, cutting=pair)),
        ]
    faced = []
    for panel, edge, cut in cuts:
        facing = facing_from(panel, edge, cut)
        faced += [facing, facing.fused(
            f"{cut.name} interfacing", facing.cutting.quantity, pair=facing.cutting.pair)]
    return faced


def bodice_meetings(drawn: FittedLines, panels: Sequence[Panel]) -> list[Joined]:
    """Shoulders with the back's ease, sides with their darts sewn, caps with theirs; facings."""
    by_name = {p.name: p for p in panels}
    joins: list[Joined] = []
    for end in ("", " lining"):
        if f"front{end}" in by_name:
            joins += _body_meetings(drawn, end)
    for name, edge in (("facing", "neck"), ("armhole facing", "armhole")):
        for side in ("front", "back"):
            if facing := by_name.get(f"{side} {name}"):
                joins.append(joined((facing, edge), (by_name[side], edge)))
    for side in ("front", "back"):
        if lined := by_name.get(f"{side} lining"):
            joins.append(joined((lined, "neck"), (by_name[side], "neck")))
    return joins


def _body_meetings(drawn: FittedLines, end: str) -> list[Joined]:
    rear, front, sleeve = drawn.back, drawn.front, drawn.sleeve
    names = f"back{end}", f"front{end}", f"sleeve{end}"
    joins = [
        Joined((names[0], "shoulder"), (names[1], "shoulder"), length(rear.shoulder),
               length(front.shoulder)),
        Joined((names[0], "side"), (names[1], "side"), rear.side_mm, front.side_mm),
        Joined((names[0], "centre back"), (names[0], "centre back"), length(rear.centre),
               length(rear.centre)),
    ]
    if sleeve:
        joins += [
            Joined((names[2], "cap"), (names[1], "armhole"), length(sleeve.front_cap),
                   length(front.armhole)),
            Joined((names[2], "cap"), (names[0], "armhole"), length(sleeve.back_cap),
                   length(rear.armhole)),
            Joined((names[2], "back seam"), (names[2], "front seam"), length(sleeve.back_seam),
                   length(sleeve.front_seam)),
        ]
    return joins


def bodice_joins(drawn: FittedLines, options: FittedOptions) -> list[Join]:
    """Every seam of the bodice but its waist, darts counted as seams."""
    front, rear, sleeve = drawn.front, drawn.back, drawn.sleeve
    legs = sum(2 * _leg(d.mark) for half in (front, rear) for d in half.darts)
    joins = [
        Join("shoulder", length(front.shoulder), 2), Join("side", front.side_mm, 2),
        Join("centre back", length(rear.centre), 1), Join("darts", legs, 1, 0),
        Join("neck", 2 * (length(front.neck) + length(rear.neck)), 2, 0),
    ]
    whole = drawn.armholes.whole_mm
    if sleeve is None:
        joins.append(Join("armhole", whole, 4, 0))
    else:
        joins += [
            Join("armhole", whole, 2), Join("sleeve seam", length(sleeve.front_seam), 2),
            Join("sleeve hem", length(sleeve.hem), 2, 0),
        ]
    if options.lining == "full":
        lined = 2 * (front.side_mm + length(front.shoulder)) + legs + 2 * whole
        joins.append(Join("lining seams", lined, 1, 0))
    return joins


def _leg(mark: Sequence[tuple[float, float]]) -> float:
    return length(tuple(mark[:2]))
