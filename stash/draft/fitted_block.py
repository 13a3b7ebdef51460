"""The fitted bodice block: back and front to the waist, with a bust dart and waist darts.

Widths and depths follow a dress block with darts (Sewing Lab Milano, lesson 3, undated): back
waist length + 1 cm, bust/2 + half the ease across, the chest line bust/6 + 6 cm down, half the
back + a fifth of half the ease. What is over at the waist goes as A. Wakeman has it (Scientific
Sewing and Garment Cutting): past 5 in 1 in of it at the centre back.
x runs down from the nape, y from the centre line to the side. Sizes and proportions are
common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import sqrt

from stash.draft.bodice import back_neck, front_neck
from stash.draft.body import Body
from stash.draft.bust_dart import DartWanted, SideSeam, darted_side
from stash.draft.darts import Dart
from stash.draft.geometry import Path, curve, distance, join, length, line, move, solve, thinned
from stash.draft.waist_darts import WaistEnds, Waistline, darted_waist, plain_waist
from stash.errors import InvalidInput
from stash.model import Point

ADULT_BUST = 950.0  # common practice, no source
LENGTH_EASE_MM, CHEST_MM = 10.0, 60.0  # Sewing Lab Milano: + 1 cm; bust/6 + 6 cm
BACK_SHARE = 0.2  # Sewing Lab Milano: a fifth of the ease to the back, the rest to the armhole
RAISE_MM = 19.05  # Baldt 1916, Fig. 45: 3/4 in
CENTRE_IN_MM, CENTRE_FROM_MM = 12.7, 127.0  # Wakeman: 1 in of both halves from 5 in of difference
BUST_POINT, BUST_DOWN, AT_BUST = 3.5 / 33, 241.3, 838.2  # retroglam 2014: 7 in, 9 1/2 in at 33 in
BUST_DOWN_GROWS = 0.2  # chosen here: a fuller bust lies lower, but not in proportion
# Common practice, no source.
BACK_SLOPE, FRONT_SLOPE = 0.33, 0.42
SHOULDER_EASE_MM, BEYOND_MM, LONGER_MM, HOLLOW_MM = 5.0, 8.0, 12.0, 6.0
SIDE_FORWARD_MM, SIDE_MOST_MM, RAISE_SIDE_MM = 10.0, 25.0, 8.0
ARMHOLE_SHARE, ARMHOLE_LESS_MM = 1 / 8, 15.0
BUST_DART_SHARE, DART_DOWN_MM, FRONT_LENGTH_EASE_MM = 0.04, 60.0, 5.0
ONE_DART_MM, LEAST_DART_MM, TIP_BELOW_MM = 45.0, 6.0, 20.0
LEAST_BELOW_MM = 5.0  # chosen here: a waist dart never reaches the bust point
AGREES_MM = 0.25  # chosen here
Points = dict[str, Point]


@dataclass(frozen=True, kw_only=True)
class FittedBlock:
    """What the block is drafted from, mm.

    ``ease`` is the whole bust's; ``front_waist`` and ``back_waist`` are half the front's and
    half the back's waist as sewn, ``down`` the nape to the waist, ``neck`` half the neck's
    width; ``sway_back`` shortens the centre back, ``round_back`` raises the back neck,
    ``bust_down`` lowers the bust point and ``dart_more`` lengthens the waist darts; ``dart`` the
    width of the bust dart at the side, less than nothing where the block works it out.
    """

    bust: float
    ease: float
    back_width: float
    shoulder: float
    neck: float
    chest_down: float
    down: float
    front_waist: float
    back_waist: float
    dart: float = -1.0
    neck_drop: float = 0.0
    full_bust: float = 0.0
    side: float = 0.0
    sway_back: float = 0.0
    round_back: float = 0.0
    bust_down: float = 0.0
    dart_more: float = 0.0

    @property
    def size(self) -> float:
        """How big this body is beside an adult with a bust of 95 cm; small allowances shrink."""
        return min(1.0, self.bust / ADULT_BUST)

    @property
    def half(self) -> float:
        """Half the bust and its ease."""
        return (self.bust + self.ease) / 2

    @property
    def bust_point(self) -> Point:
        """Where the bust is fullest."""
        below = BUST_DOWN + BUST_DOWN_GROWS * (self.bust - AT_BUST)
        if self.bust < AT_BUST:
            below = BUST_DOWN * self.bust / AT_BUST
        return below - RAISE_MM * self.size + self.bust_down, BUST_POINT * self.bust


@dataclass(frozen=True)
class FittedHalf:
    """Half a back or front: points, and its edges from the neck round to the centre line.

    ``centre`` runs up from the waist; ``side_mm`` is the side as it is once sewn.
    """

    points: Points
    neck: Path
    shoulder: Path
    armhole: Path
    side: Path
    side_mm: float
    waist: Waistline
    centre: Path
    bust_dart: Dart | None = None

    @property
    def darts(self) -> tuple[Dart, ...]:
        """Every dart."""
        return (*((self.bust_dart,) if self.bust_dart else ()), *self.waist.darts)


def block_for(
    body: Body, *, ease: float, waists: tuple[float, float], **shape: float
) -> FittedBlock:
    """The block's measures from a completed body; ``waists`` are half the front's and back's."""
    b = FittedBlock(
        bust=body["bust"], ease=ease, back_width=body["back_width"], shoulder=body["shoulder"],
        neck=body["neck_base"] / 6, chest_down=body["bust"] / 6 + CHEST_MM,
        down=body["back_waist"] + LENGTH_EASE_MM, front_waist=waists[0], back_waist=waists[1],
        **shape,
    )
    if "scye_depth" in body.given:
        b = replace(b, chest_down=body["scye_depth"] + 25 * b.size)  # Sewing Lab Milano: 2.5 cm
    b = replace(b, neck=solve(
        lambda half: neckline_mm(replace(b, neck=half, neck_drop=0.0)) - body["neck_base"],
        0.1 * body["neck_base"], 0.3 * body["neck_base"],
    ))
    return replace(b, dart=_bust_dart(body, b)) if b.dart < 0 else b


def _bust_dart(body: Body, b: FittedBlock) -> float:
    """What the front is longer over the bust than the back, where a front waist was measured;
    else 4 % of a woman's bust.
    """
    if "front_waist" in body.given:
        front = draw_front(replace(b, dart=0.0), draw_back(b))
        drawn = front.points["waist"][0] - front.points["neck"][0]
        wanted = body["front_waist"] + FRONT_LENGTH_EASE_MM - drawn
        return min(max(wanted, 0.0), 0.11 * b.bust)
    return BUST_DART_SHARE * b.bust if body.kind == "women" else 0.0


def neckline_mm(b: FittedBlock) -> float:
    """The whole neckline."""
    back, front = back_points(b), front_points(b)
    return 2 * (length(back_neck(back)) + length(front_neck(front)))


def _across(b: FittedBlock) -> tuple[float, float]:
    """(how far out the shoulder ends, half the back across): the armhole hangs from both."""
    own = b.neck + b.shoulder / sqrt(1 + BACK_SLOPE**2)
    wanted = b.back_width / 2 + BACK_SHARE * b.ease / 2
    out = max(own, min(wanted + BEYOND_MM * b.size, own + LONGER_MM * b.size))
    return out, min(wanted, out - HOLLOW_MM * b.size)


def back_points(b: FittedBlock) -> Points:
    """nape; neck and shoulder end of the shoulder seam; across; underarm; waist at the centre."""
    out, across = _across(b)
    neck = (-RAISE_MM * b.size, b.neck)
    shoulder = (neck[0] + BACK_SLOPE * (out - b.neck), out)
    over = b.bust - 2 * (b.front_waist + b.back_waist)
    centre_in = CENTRE_IN_MM * b.size if over > CENTRE_FROM_MM * b.size else 0.0
    level = shoulder[0] + 0.55 * (b.chest_down - shoulder[0])
    width = max(b.half / 2 - SIDE_FORWARD_MM * b.size, across + 0.03 * b.bust)
    return {
        "nape": (-b.round_back, 0.0), "neck": neck, "shoulder": shoulder, "across": (level, across),
        "underarm": (b.chest_down, width - b.side),
        "waist": (b.down - b.sway_back, centre_in),
    }


def front_points(b: FittedBlock) -> Points:
    """As the back's; ``centre`` is the centre front at the neck.

    The front's shoulder is as long as the back's less its ease; the front is as wide across as
    the armhole leaves it, and a little narrower than the back.
    """
    back = back_points(b)
    neck, wide = back["neck"], b.half - back["underarm"][1] - b.side
    run = distance(neck, back["shoulder"]) - SHOULDER_EASE_MM * b.size
    run /= sqrt(1 + FRONT_SLOPE**2)
    shoulder = move(neck, down=FRONT_SLOPE * run, across=run)
    armhole = ARMHOLE_SHARE * b.bust - ARMHOLE_LESS_MM * b.size + (1 - BACK_SHARE) * b.ease / 2
    across = min(b.half - back["across"][1] - armhole, shoulder[1] - HOLLOW_MM * b.size,
                 back["across"][1] - 6 * b.size)
    across = max(across, neck[1] + 0.25 * run)
    level = shoulder[0] + 0.6 * (b.chest_down - shoulder[0])
    return {
        "centre": (neck[0] + b.neck + 15 * b.size + b.neck_drop, 0.0), "neck": neck,
        "shoulder": shoulder, "across": (level, across),
        "underarm": (b.chest_down, wide - b.side + b.full_bust / 2),
    }


def armhole_line(p: Points, scoop: float) -> Path:
    """Square to the shoulder, upright at the narrowest, and level into the side."""
    shoulder, across, underarm = p["shoulder"], p["across"], p["underarm"]
    upper = across[0] - shoulder[0]
    slope = (shoulder[0] - p["neck"][0]) / max(shoulder[1] - p["neck"][1], 1.0)
    lean = min(0.35 * upper, 0.9 * max(shoulder[1] - across[1], 0.0) / max(slope, 0.01))
    lower, wide = underarm[0] - across[0], underarm[1] - across[1]
    return thinned(join(
        curve(shoulder, move(shoulder, lean, -slope * lean), move(across, -0.4 * upper), across),
        curve(across, move(across, scoop * lower), move(underarm, across=-scoop * wide), underarm),
    ))


def draw_back(b: FittedBlock) -> FittedHalf:
    """Half a back: shaped at its centre, one dart or two below the shoulder blade."""
    p = back_points(b)
    underarm, (down, centre_in) = p["underarm"], p["waist"]
    above = (b.chest_down, 0.0)
    centre = curve(p["waist"], (down - 0.3 * (down - above[0]), 0.8 * centre_in), above, above)
    if not centre_in:
        centre = line(p["waist"], above)

    def corners(taken: float) -> WaistEnds:
        return WaistEnds(
            above_centre=centre[1], centre=p["waist"], above_side=underarm,
            side=(b.down, underarm[1] - taken),
        )

    tip = (b.chest_down + TIP_BELOW_MM * b.size - b.dart_more, 0.48 * underarm[1])
    by = Shaping(tips=(tip, _beside(tip, (b.down, underarm[1]))), size=b.size)
    waist, taken = shaped_waist(corners, b.back_waist, by)
    side = line(underarm, corners(taken).side)
    return FittedHalf(
        points=p, neck=thinned(back_neck(p)), shoulder=line(p["neck"], p["shoulder"]),
        armhole=armhole_line(p, 0.6), side=side, side_mm=length(side), waist=waist,
        centre=join(centre, line(above, p["nape"])),
    )


@dataclass(frozen=True, kw_only=True)
class Shaping:
    """How a quarter is taken in at its waist, mm: where its first dart ends and where a second
    would; the most that the side takes in, and the widest single dart, of a grown body.
    """

    tips: tuple[Point, Point]
    size: float
    side_most: float = SIDE_MOST_MM
    one_dart: float = ONE_DART_MM


def shaped_waist(
    ends: Callable[[float], WaistEnds], wanted_mm: float, by: Shaping
) -> tuple[Waistline, float]:
    """The waist ``wanted_mm`` long, half of what is over in the side and the rest in darts; and
    what the side takes in.

    ``ends`` gives the corners for what the side takes in. A waist wider than the bust lets the
    side out instead.
    """
    over = length(plain_waist(ends(0.0))) - wanted_mm
    at_side = min(0.5 * over, by.side_most * by.size)
    if over - at_side < LEAST_DART_MM * by.size:
        taken = solve(
            lambda mm: wanted_mm - length(plain_waist(ends(mm))), over - 60.0, over + 60.0
        )
        path = thinned(plain_waist(ends(taken)))
        return Waistline(path, (), length(path), path), taken
    two = over - at_side > by.one_dart * by.size
    return darted_waist(ends(at_side), by.tips if two else by.tips[:1], wanted_mm), at_side


def _beside(tip: Point, side: Point) -> Point:
    """Where a second dart ends: between the first and the side, a little lower."""
    return move(tip, down=0.12 * (side[0] - tip[0]), across=(side[1] - tip[1]) / 2.4)


def draw_front(b: FittedBlock, back: FittedHalf) -> FittedHalf:
    """Half a front, its side as long as the back's once its dart is sewn."""
    p = front_points(b)
    underarm, point = p["underarm"], b.bust_point
    wanted = DartWanted(
        bust_point=point, wide_mm=b.dart + b.full_bust / 2, down_mm=min(
            DART_DOWN_MM * b.size, 0.4 * back.side_mm),
    )

    def side(taken: float) -> SideSeam:
        return darted_side(underarm, underarm[1] - taken, back.side_mm, wanted)

    def corners(taken: float) -> WaistEnds:
        above, end = side(taken).last
        centre = (end[0] + RAISE_SIDE_MM * b.size, 0.0)
        return WaistEnds(above_centre=p["centre"], centre=centre, above_side=above, side=end)

    tip = move(point, down=max(TIP_BELOW_MM * b.size - b.dart_more, LEAST_BELOW_MM))
    by = Shaping(tips=(tip, _beside(tip, side(0.0).last[1])), size=b.size)
    waist, taken = shaped_waist(corners, b.front_waist, by)
    if abs(waist.sewn_mm - b.front_waist) > AGREES_MM:
        raise InvalidInput(
            "bust_dart_too_wide", dart_measure_mm=wanted.wide_mm,
            waist_measure_mm=2 * b.front_waist, field="waist",
        )
    seam = side(taken)
    p["waist"] = corners(taken).centre
    return FittedHalf(
        points=p, neck=thinned(front_neck(p)), shoulder=line(p["neck"], p["shoulder"]),
        armhole=armhole_line(p, 0.72), side=seam.path, side_mm=seam.sewn_mm, waist=waist,
        centre=line(p["waist"], p["centre"]), bust_dart=seam.dart,
    )
