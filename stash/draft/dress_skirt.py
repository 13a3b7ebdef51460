"""A skirt drawn to the waist of a bodice: quarters of the hip whose sewn waists are given.

The block is the skirt's (``skirt_block``): a quarter of the hip and its ease at the hip line
(Rosenfeld 1911, Lesson 106). Its waist is drawn with the darts folded, as the bodice's is, and
its darts meet the bodice's. Sizes and proportions are common practice, no source, where none is
named. x runs down from the waist, y from the centre to the side.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.draft.darts import Dart
from stash.draft.fitted_block import FittedHalf, Shaping, shaped_waist
from stash.draft.geometry import (
    Path,
    between,
    curve,
    distance,
    join,
    length,
    line,
    move,
    thinned,
)
from stash.draft.skirt_block import Quarter
from stash.draft.waist_darts import WaistEnds
from stash.model import Point

# Common practice, no source.
SIDE_MOST_MM, DART_SHARE = 40.0, 0.6
TIMES = 4  # how often the darts are moved until they meet the bodice's


@dataclass(frozen=True, kw_only=True)
class SkirtQuarter:
    """A quarter of the hip with its ease across; where the hip and the hem lie; the flare at the
    hem; what the waist is to be once sewn; how far from the centre the first dart is to lie, and
    the widest single dart. ``side_mm`` is how long the side is to be, where another is drawn.
    """

    across: float
    hip_down: float
    down: float
    flare: float
    waist: float
    dart_at: float
    one_dart: float
    size: float
    side_mm: float | None = None


def bodice_dart_at(half: FittedHalf) -> float | None:
    """How far from the centre the bodice's first waist dart lies on the sewn waist."""
    if not half.waist.darts:
        return None
    left = half.waist.darts[0].mark[0]
    flat = half.waist.flat
    at = min(range(len(flat)), key=lambda i: distance(flat[i], left))
    return length(flat[: at + 1])


def draw_quarter(q: SkirtQuarter) -> Quarter:
    """The quarter, its dart moved along until it lies where it is to lie, and the waist raised or
    lowered at the side until that is as long as the other.
    """
    centre, rise = q.dart_at + 10.0, 0.0
    for _ in range(TIMES):
        quarter = _drawn(q, centre, rise)
        if q.side_mm is not None:
            rise += q.side_mm - length(quarter.side)
        if not quarter.darts:
            continue
        first = quarter.darts[0].mark[0]
        at = min(range(len(quarter.waist)), key=lambda i: distance(quarter.waist[i], first))
        centre += q.dart_at - length(quarter.waist[: at + 1])
    return quarter


def _drawn(q: SkirtQuarter, dart_centre: float, rise: float) -> Quarter:
    """One drawing; upside down where the waist is drawn, as below a bodice's bust."""
    slope = q.flare / (q.down - q.hip_down)
    hip = (q.hip_down, q.across)
    deep = DART_SHARE * q.hip_down

    def side_top(taken: float) -> Point:
        return -rise, q.across - taken

    def over_hip(taken: float) -> Path:
        top = side_top(taken)
        return curve(
            top, between(top, (hip[0], top[1]), 0.4),
            move(hip, down=-0.35 * q.hip_down, across=-0.35 * q.hip_down * slope), hip,
        )

    def ends(taken: float) -> WaistEnds:
        top, below = over_hip(taken)[:2]
        return WaistEnds(
            above_centre=(-q.hip_down, 0.0), centre=(0.0, 0.0),
            above_side=(-below[0], below[1]), side=(-top[0], top[1]),
        )

    first = (-deep, dart_centre)
    second = (-0.85 * deep, dart_centre + 0.45 * (q.across - dart_centre))
    waist, taken = shaped_waist(ends, q.waist, Shaping(
        tips=(first, second), size=q.size, side_most=SIDE_MOST_MM, one_dart=q.one_dart))
    side = thinned(over_hip(taken))
    out = q.across + q.flare
    foot = (q.down - 0.25 * out * slope, out)
    hem = curve(foot, (q.down, 0.75 * foot[1]), (q.down, 0.4 * foot[1]), (q.down, 0.0))
    return Quarter(
        waist=_upright(waist.flat), side=join(side, line(hip, foot)), hem=hem,
        darts=tuple(replace(d, mark=_upright(d.mark)) for d in waist.darts),
        hip_at=length(side),
    )


def _upright(path: Path) -> Path:
    return tuple((-x, y) for x, y in path)


def sewn_waist(quarter: Quarter) -> float:
    """The quarter's waist with its darts sewn: without their mouths."""
    return length(quarter.waist) - sum(_mouth(d) for d in quarter.darts)


def _mouth(dart: Dart) -> float:
    return distance(dart.mark[0], dart.mark[2])
