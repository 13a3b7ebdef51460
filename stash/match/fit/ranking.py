"""Which cut to take first: fits before what does not, then least waste and least spoiling.

Everything is weighed in square metres of cloth lost to later garments.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from stash.fact import Fact
from stash.model import Cut, Lay
from stash.model.came import first_day

# A leftover shorter than this makes no garment piece; common practice, no source.
END_MM = 250.0
# How much of an untouched length's worth goes when it is cut into, and of a remnant's.
SPOIL_WHOLE, SPOIL_REMNANT = 0.25, 0.05
# What a preference missed is worth: more than a little waste, so that the better cloth
# comes first; common practice, no source.
UNSUITED_M2 = {
    "rather_light": 0.8, "rather_heavy": 0.8, "mass_unknown": 0.6, "construction_unknown": 0.8,
    "more_stretch_than_used": 0.6, "seen_through": 1.5, "kept_for": 0.0,
}
OTHER_UNSUITED_M2 = 0.3
PER_OFF_WEIGHT_M2 = 4.0
KEPT_M2 = 3.0
OLD_DAY_M2 = 0.0002
LONG_FROM_NOW = date(2100, 1, 1)
DEAR_UNIT_M2 = 0.0002


@dataclass(frozen=True, kw_only=True)
class Weights:
    """How much each aim counts; 1 is usual, 0 not at all.

    ``use_up`` favours remnants, ``oldest`` what has lain longest, ``keep_for`` leaves
    alone what is kept for something, ``cheapest`` spares dear cloth.
    """

    use_up: float = 1.0
    oldest: float = 0.0
    keep_for: float = 1.0
    cheapest: float = 0.0


@dataclass(frozen=True)
class Cost:
    """What taking a cut costs, in square metres, and of what that is made up."""

    waste_m2: float
    spoil_m2: float
    other_m2: float

    @property
    def total_m2(self) -> float:
        """The figure cuts are ordered by."""
        return self.waste_m2 + self.spoil_m2 + self.other_m2


def is_remnant(cut: Cut) -> bool:
    """True for what is already cut into: it came from another cut or is no rectangle."""
    return cut.came_from is not None or not cut.outline.is_rectangle


@dataclass(frozen=True, kw_only=True)
class Making:
    """What is made: the area of its pieces, the preferences missed, and what it is called."""

    pieces_mm2: float
    soft: tuple[Fact, ...] = ()
    garments: tuple[str, ...] = ()


def cost(cut: Cut, lay: Lay, making: Making, weights: Weights) -> Cost:
    """The cost of making the lay on this cut."""
    outline = cut.outline_washed
    used_mm = min(lay.length_mm, outline.length_mm)
    spare_mm = outline.length_mm - used_mm
    taken = outline.area_mm2 * used_mm / outline.length_mm
    left = outline.area_mm2 - taken
    waste = max(taken - making.pieces_mm2, 0.0) + (left if spare_mm < END_MM else 0.0)
    spoiled = left if spare_mm >= END_MM else 0.0
    share = spoiling(is_remnant(cut))
    other = unsuited_m2(making.soft) + kept_m2(cut, making.garments, weights)
    other += weights.cheapest * DEAR_UNIT_M2 * (cut.cloth.price_minor_per_m or 0) * used_mm / 1000
    return Cost(waste / 1e6, weights.use_up * share * spoiled / 1e6, other - _age(cut, weights))


def spoiling(remnant: bool) -> float:
    """How much of what is left of a cut is lost by cutting into it."""
    return SPOIL_REMNANT if remnant else SPOIL_WHOLE


def unsuited_m2(soft: Iterable[Fact]) -> float:
    """What the preferences missed weigh; a weight further off counts for more."""
    return sum(
        UNSUITED_M2.get(reason.kind, OTHER_UNSUITED_M2) + PER_OFF_WEIGHT_M2 * _off_weight(reason)
        for reason in soft
    )


def _off_weight(reason: Fact) -> float:
    """How far a weight lies outside the best range, as a share of the limit it passes."""
    told = reason.values
    mass, least, most = (told.get(name) for name in ("mass_gsm", "least_gsm", "most_gsm"))
    if reason.kind == "rather_light" and isinstance(mass, float) and isinstance(least, float):
        return least / mass - 1
    if reason.kind == "rather_heavy" and isinstance(mass, float) and isinstance(most, float):
        return mass / most - 1
    return 0.0


def kept_m2(cut: Cut, garments: tuple[str, ...], weights: Weights) -> float:
    """What taking cloth that is kept for something else costs."""
    kept = (cut.keep_for or "").casefold()
    if not kept or any(name.casefold() in kept for name in garments):
        return 0.0
    return weights.keep_for * KEPT_M2


def _age(cut: Cut, weights: Weights) -> float:
    """Days before the year 2100, so that the clock is not needed."""
    if not weights.oldest or not cut.acquired:
        return 0.0
    came = first_day(cut.acquired)
    return weights.oldest * OLD_DAY_M2 * (LONG_FROM_NOW - came).days if came else 0.0
