"""A reading of a scale: what it shows, and how far the truth may lie from it."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

from stash.errors import InvalidInput
from stash.model.measured import Measured, Origin

MOST_G = 100_000.0
READ_STEPS = 2 / sqrt(12)  # two standard errors of rounding to a step
OWN_STEPS = 1.0  # a household scale may be out by a step besides (common practice, no source)


@dataclass(frozen=True, kw_only=True)
class Scale:
    """A scale that shows steps of ``step_g`` grams."""

    step_g: float = 1.0

    def reading(self, grams: float, *, empty_g: float = 0.0) -> Measured:
        """What lies on it in grams, its container taken off; InvalidInput when that is nothing."""
        if not (0 < self.step_g <= 100 and 0 < grams <= MOST_G and empty_g >= 0):
            raise InvalidInput("not_a_weighing", field="grams")
        if grams <= empty_g:
            raise InvalidInput("nothing_but_the_container", grams_g=grams, empty_g=empty_g,
                               field="grams")
        once = self.step_g * hypot(READ_STEPS, OWN_STEPS)
        error = once * (sqrt(2) if empty_g else 1.0)
        return Measured(value=grams - empty_g, error=error, origin=Origin.WEIGHED)


def quotient(one: Measured, other: Measured, origin: Origin, *more_shares: float) -> Measured:
    """One figure by another, their errors and further ones (as shares) taken together."""
    share = hypot(one.share, other.share, *more_shares)
    value = one.value / other.value
    return Measured(value=value, error=share * value, origin=origin)
