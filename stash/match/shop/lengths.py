"""What to ask for in the shop: from the length a lay needs to the length cut off the bolt."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil

from stash.fact import Fact
from stash.model import Lay, Repeat
from stash.units import INCH_MM, YARD_MM, System

# Widths sold: by the metre common practice, no source; by the yard 36 in (column heads of the
# width conversion charts), 45, 54 and 60 in (Threads magazine, issue 151: the most common), and
# 58 in, which suiting of 60 in is usable for (trade forum).
WIDTHS_SOLD_MM = {
    System.METRIC: (900.0, 1120.0, 1150.0, 1400.0, 1500.0),
    System.INCHES: tuple(inches * INCH_MM for inches in (36, 45, 54, 58, 60)),
}
# Selvedge each side that cannot be cut: 1 to 1.5 cm; common practice, no source.
SELVEDGE_MM = 12.0
# Shops cut by the tenth of a metre (common practice, no source) or the eighth of a yard
# ("Household Arithmetic", c. 1920, p. 100; Threads magazine planning sheet).
INCREMENT_MM = {System.METRIC: 100.0, System.INCHES: YARD_MM / 8}
ROUNDING_MM = 0.5


@dataclass(frozen=True, kw_only=True)
class Bolt:
    """The cloth one means to buy, before anyone has seen it.

    Shrinkage in percent; ``repeat`` and ``one_way`` as hoped for; prices in minor units.
    """

    one_way: bool = False
    repeat: Repeat | None = None
    shrink_along_pct: float = 5.0
    shrink_across_pct: float = 3.0
    selvedge_mm: float = SELVEDGE_MM
    price_minor_per_m: int | None = None
    increment_mm: float = INCREMENT_MM[System.METRIC]

    def usable_mm(self, sold_mm: float) -> float:
        """Width left to lay on, selvedges off and once washed."""
        return (sold_mm - 2 * self.selvedge_mm) * (1 - self.shrink_across_pct / 100)


@dataclass(frozen=True, kw_only=True)
class Length:
    """How much to buy at one width; ``length_mm`` None where a piece is wider than the cloth.

    ``lay_mm`` is what the lay takes once washed; ``because`` is what is in the way.
    """

    width_mm: float
    length_mm: float | None
    lay_mm: float | None = None
    cost_minor: int | None = None
    because: Fact | None = None
    lay: Lay | None = None


def to_buy_mm(lay_mm: float, bolt: Bolt) -> float:
    """Length to have cut off, before rounding: shrinkage added back, and one whole repeat.

    The bolt may begin anywhere in its repeat, so one repeat is lost at most
    ("pattern amount + one full repeat", sew4home.com width conversion page).
    """
    repeat = bolt.repeat.lengthwise_mm if bolt.repeat and bolt.repeat.lengthwise_mm else 0.0
    return lay_mm / (1 - bolt.shrink_along_pct / 100) + repeat


def rounded_up_mm(length_mm: float, increment_mm: float) -> float:
    """Up to the shop's increment; half a millimetre over does not cost another."""
    return ceil((length_mm - ROUNDING_MM) / increment_mm) * increment_mm


def lengths(
    widths_mm: Sequence[float],
    bolt: Bolt,
    shortest: Callable[[float], tuple[Lay | None, Fact | None]],
) -> tuple[Length, ...]:
    """The length to buy at each width sold; ``shortest`` lays on a usable width.

    A wider cloth can always take the lay of a narrower one, so no wider row asks
    for more than a narrower one does.
    """
    rows: list[Length] = []
    best: Lay | None = None
    for width_mm in sorted(widths_mm):
        lay, because = shortest(bolt.usable_mm(width_mm))
        if best is not None and (lay is None or lay.length_mm > best.length_mm):
            lay = best
        best = lay or best
        rows.append(_row(width_mm, lay, because, bolt))
    return tuple(rows)


def _row(width_mm: float, lay: Lay | None, because: Fact | None, bolt: Bolt) -> Length:
    if lay is None:
        return Length(width_mm=width_mm, length_mm=None, because=because)
    length = rounded_up_mm(to_buy_mm(lay.length_mm, bolt), bolt.increment_mm)
    price = bolt.price_minor_per_m
    return Length(
        width_mm=width_mm,
        length_mm=length,
        lay_mm=lay.length_mm,
        cost_minor=None if price is None else round(length / 1000 * price),
        lay=lay,
    )
