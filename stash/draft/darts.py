"""Darts at a waistline: what it is longer than the waist, sewn away in one dart or two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.draft.geometry import Path, along, between, length

DART_MOST_MM = 30.0
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
    at = part * length(waist)
    left, right = along(waist, at - taken / 2), along(waist, at + taken / 2)
    middle = between(left, right)
    return Dart((left, (middle[0] + depth_mm, middle[1]), right), taken)


def sewn_length(waist: Path, taken: Sequence[Dart]) -> float:
    """Length of a waistline once its darts are sewn."""
    return length(waist) - sum(d.intake_mm for d in taken)
