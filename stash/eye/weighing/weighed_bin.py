"""How much is in a bin, from its weight: things that are alike, and what is sold by length."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

from stash.errors import InvalidInput
from stash.eye.weighing.scale import Scale
from stash.eye.weighing.weighed_length import FINE_STEP_G, USELESS, ByWeight
from stash.fact import Fact, fact
from stash.model.measured import Measured, Origin

ALIKE_SHARE = 0.03  # one button's mass about that of its fellows, one standard error (no source)
STRIP_SHARE = 0.015  # a strip's mass per metre along it, two standard errors (no source)
COUNTED_FIRST = 40


@dataclass(frozen=True, kw_only=True)
class Known:
    """What a known amount weighs: ``amount`` things, or millimetres, and ``grams``.

    ``step_g`` is that of the scale it was weighed on, None where the figure comes from a
    label or a table and is within a twentieth.
    """

    amount: float
    grams: float
    step_g: float | None


def count_by_weight(grams: float, known: Known, scale: Scale, empty_g: float = 0.0) -> ByWeight:
    """How many things weigh so much, when ``known.amount`` of them weigh ``known.grams``."""
    weighed, sample = scale.reading(grams, empty_g=empty_g), _sample(known)
    count = weighed.value * known.amount / sample.value
    unlike = 2 * ALIKE_SHARE * hypot(1 / sqrt(max(count, 1)), 1 / sqrt(known.amount))
    share = hypot(weighed.share, sample.share, unlike)
    figure = Measured(value=round(count), error=share * count, origin=Origin.WEIGHED)
    helps: tuple[Fact, ...] = ()
    if figure.error >= 1:
        helps = _helps(sample, weighed, scale, _more_first(known.amount))
    because = fact("count_by_weight", each_g=sample.value / known.amount,
                   error_pct=round(100 * share, 1))
    return ByWeight(figure=figure, useful=share <= USELESS, because=(because,), would_help=helps)


def strip_by_weight(
    grams: float, known: Known, scale: Scale, moisture_share: float, empty_g: float = 0.0
) -> ByWeight:
    """How many millimetres weigh so much: elastic, binding, ribbon, thread on its spool."""
    weighed, sample = scale.reading(grams, empty_g=empty_g), _sample(known)
    length = weighed.value * known.amount / sample.value
    share = hypot(weighed.share, sample.share, STRIP_SHARE, sqrt(2) * moisture_share)
    figure = Measured(value=length, error=share * length, origin=Origin.WEIGHED)
    helps: tuple[Fact, ...] = ()
    if share > 0.04:
        helps = _helps(sample, weighed, scale, fact("longer_sample_helps"))
    because = fact("strip_by_weight", per_metre_g=1000 * sample.value / known.amount,
                   error_pct=round(100 * share, 1))
    return ByWeight(figure=figure, useful=share <= USELESS, because=(because,), would_help=helps)


def enough(figure: Measured, needed: float) -> bool | None:
    """Whether there is surely enough (True), surely not (False), or it cannot be told (None)."""
    if figure.value - figure.error >= needed:
        return True
    return False if figure.value + figure.error < needed else None


def _more_first(counted: float) -> Fact:
    """Forty, or twice as many as were counted."""
    return fact("count_more_first", count=max(COUNTED_FIRST, int(2 * counted)))


def _sample(known: Known) -> Measured:
    if not (known.amount > 0 and known.grams > 0):
        raise InvalidInput("not_a_weighing", field="per")
    if known.step_g is None:
        return Measured(value=known.grams, error=0.05 * known.grams, origin=Origin.PRESUMED)
    return Scale(step_g=known.step_g).reading(known.grams)


def _helps(sample: Measured, weighed: Measured, scale: Scale, more: Fact) -> tuple[Fact, ...]:
    """A finer scale where the step is coarse, a larger sample where that is what errs."""
    finer = (fact("finer_scale_helps", step_g=FINE_STEP_G),) if scale.step_g > FINE_STEP_G else ()
    return (more, *finer) if sample.share > weighed.share else (*finer, more)
