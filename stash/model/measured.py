"""A figure with its error and its origin: the better one wins.

``error`` is half of the interval that holds the truth in nineteen cases of twenty (two
standard errors), in the unit of the value.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import hypot


class Origin(StrEnum):
    """Where a figure comes from."""

    MEASURED = "measured"
    COUNTED = "counted"
    PHOTOGRAPHED = "photographed"
    WEIGHED = "weighed"
    ROLLED = "rolled"
    PRESUMED = "presumed"


@dataclass(frozen=True, kw_only=True)
class Measured:
    """A length in mm, a count, a mass in g or g/m2: the figure, its error, its origin."""

    value: float
    error: float
    origin: Origin

    @property
    def share(self) -> float:
        """The error as a share of the figure; infinite where the figure is nothing."""
        return self.error / abs(self.value) if self.value else float("inf")


def better(one: Measured, other: Measured) -> Measured:
    """The one to trust: never a presumed one where another is, else that with less error."""
    presumed = one.origin is Origin.PRESUMED, other.origin is Origin.PRESUMED
    if presumed[0] != presumed[1]:
        return other if presumed[0] else one
    return one if one.error <= other.error else other


def agree(one: Measured, other: Measured) -> bool:
    """True when the difference of two figures is no larger than their errors explain."""
    return abs(one.value - other.value) <= hypot(one.error, other.error)
