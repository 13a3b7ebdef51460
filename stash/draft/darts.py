"""Darts at a waistline: what it is longer than the waist, sewn away in one dart or two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString
from shapely import Point as Place

from stash.draft.geometry import Path, along, between, crossing, distance, length, reflected
from stash.model import Point

# Common practice, no source, where none is named.
DART_MOST_MM = 30.0
BESIDE_MM = 10.0  # the waistline beside a dart is taken as straight for so far
EASED_MM = 2.0  # less than this is eased onto the band instead of sewn as a dart


@dataclass(frozen=True)
class Dart:
    """A dart marked on a panel: the line to sew, and how much it takes in."""

    mark: Path
    intake_mm: float


def darts(
    waist: Path, wanted_mm: float, depth_mm: float, *, most: int = 2
) -> tuple[Dart, ...]:
    """Darts that shorten a waistline to ``wanted_mm``, spaced evenly along it, ``most`` of them."""
    over = length(waist) - wanted_mm
    if over < EASED_MM:
        return ()
    count = 1 if over <= DART_MOST_MM else most
    return tuple(
        _dart(waist, (place + 1) / (count + 1), over / count, depth_mm) for place in range(count)
    )


def _dart(waist: Path, part: float, taken: float, depth_mm: float) -> Dart:
    """A dart square to the waistline, so that both its legs are equally long."""
    at = part * length(waist)
    left, right = along(waist, at - taken / 2), along(waist, at + taken / 2)
    middle, wide = between(left, right), distance(left, right)
    down = (right[1] - left[1]) / wide, (left[0] - right[0]) / wide
    sign = 1.0 if down[0] > 0 else -1.0
    tip = (middle[0] + sign * down[0] * depth_mm, middle[1] + sign * down[1] * depth_mm)
    return Dart((left, tip, right), taken)


def folded_line(waist: Path, taken: Sequence[Dart]) -> Path:
    """The waistline as it is cut, trued with its darts folded to one side.

    Between the legs of a folded dart lie two layers under the panel; cut along the
    waistline they open out to a peak on the dart's middle line: each half of it mirrors
    the waistline beside the dart in the dart's leg.
    """
    line = waist
    for dart in taken:
        left, tip, right = dart.mark
        peak = _peak(line, left, tip, right)
        before, after = _parted(line, left, right)
        line = (*before, left, peak, right, *after)
    return line


def _peak(line: Path, left: Point, tip: Point, right: Point) -> Point:
    """Where the edge of the folded dart meets its middle line."""
    beside = along(line, max(0.0, _reach(line, left) - BESIDE_MM))
    image = reflected(beside, left, tip)
    return crossing(left, image, between(left, right), tip)


def _parted(line: Path, left: Point, right: Point) -> tuple[Path, Path]:
    """The points of a line before and after the two on it."""
    first, last = _reach(line, left), _reach(line, right)
    reaches = [length(line[: i + 1]) for i in range(len(line))]
    before = tuple(p for p, r in zip(line, reaches, strict=True) if r < first - 0.5)
    after = tuple(p for p, r in zip(line, reaches, strict=True) if r > last + 0.5)
    return before, after


def _reach(line: Path, point: Point) -> float:
    """How far along a line a point on it lies."""
    return float(LineString(line).project(Place(point)))


def sewn_length(waist: Path, taken: Sequence[Dart]) -> float:
    """Length of a waistline once its darts are sewn."""
    return length(waist) - sum(d.intake_mm for d in taken)
