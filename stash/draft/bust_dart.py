"""The bust dart in the front's side seam: the seam below it turned about the dart's tip.

With the dart folded the side is one straight line as long as the back's. Sizes and
proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, cos, hypot, sin, sqrt

from stash.draft.darts import Dart, folded_line
from stash.draft.geometry import Path, distance, line, move, solve, towards, turned
from stash.model import Point

# Common practice, no source.
LEAST_DART_MM = 3.0  # less is eased
FROM_POINT_MM = 22.0  # the dart ends this far short of the bust point
MOST_LEAN_RAD = 0.6


@dataclass(frozen=True, kw_only=True)
class SideSeam:
    """The front's side: as it is cut, its dart if there is one, and its sewn length, mm."""

    path: Path
    dart: Dart | None
    sewn_mm: float

    @property
    def last(self) -> tuple[Point, Point]:
        """The straight end of the seam at the waist."""
        return self.path[-2], self.path[-1]


@dataclass(frozen=True, kw_only=True)
class DartWanted:
    """A dart ``wide_mm`` at the seam, ``down_mm`` below the underarm, towards the bust point."""

    bust_point: Point
    wide_mm: float
    down_mm: float


def darted_side(
    underarm: Point, out_mm: float, long_mm: float, dart: DartWanted
) -> SideSeam:
    """The side from the underarm to a waist ``out_mm`` from the centre, ``long_mm`` once sewn."""
    if dart.wide_mm < LEAST_DART_MM:
        aside = out_mm - underarm[1]
        down = sqrt(max(long_mm**2 - aside**2, 0.0))
        return SideSeam(
            path=line(underarm, move(underarm, down, aside)), dart=None,
            sewn_mm=hypot(down, aside),
        )

    def drawn(lean: float) -> tuple[Point, Point, Point, Point]:
        return _drawn(underarm, long_mm, dart, lean)

    lean = solve(lambda r: drawn(r)[3][1] - out_mm, -MOST_LEAN_RAD, MOST_LEAN_RAD)
    upper, tip, lower, waist = drawn(lean)
    taken = Dart((upper, tip, lower), distance(upper, lower))
    path = folded_line(line(underarm, upper, lower, waist), [taken])
    return SideSeam(
        path=path, dart=taken, sewn_mm=distance(underarm, upper) + distance(lower, waist)
    )


def _drawn(
    underarm: Point, long_mm: float, dart: DartWanted, lean: float
) -> tuple[Point, Point, Point, Point]:
    """Upper mouth, tip and lower mouth of the dart, and the waist, for a lean of the seam."""
    step = (cos(lean), sin(lean))
    upper = move(underarm, dart.down_mm * step[0], dart.down_mm * step[1])
    aside = asin(min(0.9, dart.wide_mm / 2 / max(distance(dart.bust_point, upper), 1.0)))
    middle = turned((upper,), dart.bust_point, aside)[0]  # a point on the dart's middle line
    tip = towards(dart.bust_point, middle, FROM_POINT_MM)
    opens = 2 * asin(min(0.9, dart.wide_mm / 2 / max(distance(tip, upper), 1.0)))
    end = move(underarm, long_mm * step[0], long_mm * step[1])
    lower, waist = turned((upper, end), tip, opens)
    return upper, tip, lower, waist
