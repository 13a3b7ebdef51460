"""A waistline that is smooth once its darts are folded: drawn with them closed, then opened.

The part beyond each dart is turned about the dart's tip until its legs meet; there the
waistline is one curve, square to the centre and to the side, as long as it is to be. Opened
again, both legs of a dart are equally long and the folded seam has no corner.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2

from stash.draft.darts import Dart, folded_line
from stash.draft.geometry import (
    Path,
    along,
    curve,
    distance,
    join,
    length,
    move,
    parted,
    solve,
    square_to,
    thinned,
    turned,
)
from stash.model import Point

# Chosen here: no dart is wider, and how far a curve runs on square to its ends.
WIDEST_RAD = 0.6
PULL = 0.35


@dataclass(frozen=True)
class Waistline:
    """The waist as it is cut, its darts, and its length once they are sewn, mm.

    ``flat`` is the line from leg to leg, without the peaks that a folded dart is cut to.
    """

    path: Path
    darts: tuple[Dart, ...]
    sewn_mm: float
    flat: Path


@dataclass(frozen=True, kw_only=True)
class WaistEnds:
    """Where a waistline starts and ends, and what it is square to: the centre line above
    ``centre`` and the side seam above ``side``."""

    above_centre: Point
    centre: Point
    above_side: Point
    side: Point


def plain_waist(c: WaistEnds) -> Path:
    """One curve from the centre to the side, square to both."""
    reach = PULL * distance(c.centre, c.side)
    out, back = square_to(c.above_centre, c.centre, reach), square_to(c.above_side, c.side, reach)
    return curve(
        c.centre, move(c.centre, *out), move(c.side, -back[0], -back[1]), c.side,
    )


def darted_waist(c: WaistEnds, tips: Sequence[Point], wanted_mm: float) -> Waistline:
    """The waistline with a dart below each tip, from the centre out, alike in angle."""

    def closed(rad: float) -> Path:
        side = _closed((c.above_side, c.side), tips, rad)
        return plain_waist(WaistEnds(
            above_centre=c.above_centre, centre=c.centre, above_side=side[0], side=side[1],
        ))

    rad = solve(lambda r: wanted_mm - length(closed(r)), 0.0, WIDEST_RAD)
    return _opened(thinned(closed(rad)), tips, rad)


def _closed(path: Path, tips: Sequence[Point], rad: float) -> Path:
    for tip in reversed(tips):
        path = turned(path, tip, rad)
    return path


def _opened(waist: Path, tips: Sequence[Point], rad: float) -> Waistline:
    """The closed curve parted at each dart, what lies beyond turned back about its tip."""
    rest, whole, found = waist, [], []
    for tip in tips:
        at = _below(rest, tip, rad / 2)
        before, beyond = parted(rest, at)
        left, right = before[-1], turned(beyond[:1], tip, -rad)[0]
        found.append(Dart((left, tip, right), distance(left, right)))
        whole.append(before)
        rest = turned(beyond, tip, -rad)
    path = join(*whole, rest)
    return Waistline(folded_line(path, found), tuple(found), length(waist), path)


def _below(path: Path, tip: Point, rad: float) -> float:
    """How far along a path lies the left leg of a dart, half its angle in from straight down."""

    def off(mm: float) -> float:
        x, y = along(path, mm)
        return atan2(y - tip[1], x - tip[0]) + rad

    return solve(off, 0.0, length(path))
