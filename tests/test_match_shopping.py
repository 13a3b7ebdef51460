"""What to ask for in the shop: shrinkage, repeat and the shop's own step, always upwards."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.fact import fact
from stash.match.shop.lengths import INCREMENT_MM, Bolt, lengths, rounded_up_mm, to_buy_mm
from stash.model import Lay, Repeat
from stash.units import System

TOO_WIDE = fact("piece_wider_than_cloth", piece="back", across_mm=950.0, there_mm=850.0)


def lay(length_mm: float, width_mm: float = 1000) -> Lay:
    """A lay of this length; where its pieces lie does not matter here."""
    return Lay(placements=(), length_mm=length_mm, width_mm=width_mm, utilisation=0.8)


def test_shrinkage_is_added_back_by_division():
    """"Cut length = needed / (1 - s); s = 5 % -> x 1.0526" (arithmetic)."""
    assert to_buy_mm(1000, Bolt(shrink_along_pct=5)) == pytest.approx(1052.6, abs=0.05)


def test_one_full_repeat_is_added():
    """"Pattern amount + one full repeat" (sew4home.com, width conversion page)."""
    bolt = Bolt(shrink_along_pct=0, repeat=Repeat(lengthwise_mm=240, crosswise_mm=160))

    assert to_buy_mm(2000, bolt) == 2240


def test_metric_shops_cut_by_the_tenth_of_a_metre_and_yard_shops_by_the_eighth():
    """0.1 m is common practice; 1/8 yd: Household Arithmetic, c. 1920, p. 100."""
    assert rounded_up_mm(1723, INCREMENT_MM[System.METRIC]) == 1800
    assert rounded_up_mm(1723, INCREMENT_MM[System.INCHES]) == pytest.approx(2 * 914.4)


def test_a_length_that_is_exact_is_not_rounded_further():
    """1.80 m is 1.80 m, whatever the last bits say."""
    assert rounded_up_mm(1800.0000001, 100) == 1800


@given(st.floats(10, 20_000), st.sampled_from([50.0, 100.0, 114.3, 250.0, 500.0]))
def test_rounding_never_buys_too_little_nor_a_whole_step_too_much(needed: float, step: float):
    """Within half a millimetre below, and less than one step above."""
    bought = rounded_up_mm(needed, step)

    assert needed - 0.5 <= bought < needed + step
    assert bought / step == pytest.approx(round(bought / step))


def test_the_width_to_lay_on_is_without_selvedges_and_washed():
    """115 cm sold: 1.2 cm of selvedge each side (common practice) and 3 % shrinkage."""
    assert Bolt(shrink_across_pct=3).usable_mm(1150) == pytest.approx((1150 - 24) * 0.97)


def test_a_width_too_narrow_for_a_piece_says_so_and_the_others_are_priced():
    """One row a width, narrowest first."""
    def shortest(usable: float):
        return (None, TOO_WIDE) if usable < 900 else (lay(1500), None)

    rows = lengths((1500, 900), Bolt(price_minor_per_m=1250, shrink_along_pct=0), shortest)

    assert [(r.width_mm, r.length_mm, r.cost_minor) for r in rows] == [
        (900, None, None), (1500, 1500, 1875)
    ]
    assert rows[0].because == TOO_WIDE


@given(st.lists(st.none() | st.floats(300, 5000), min_size=1, max_size=6))
def test_wider_cloth_never_asks_for_more_than_narrower(found: list[float | None]):
    """A lay for the narrow cloth lies on the wide one too."""
    widths = [900.0 + 100 * i for i in range(len(found))]
    by_usable = {Bolt().usable_mm(w): f for w, f in zip(widths, found, strict=True)}

    rows = lengths(widths, Bolt(), lambda u: (by_usable[u] and lay(by_usable[u]), None))

    bought = [row.length_mm for row in rows if row.length_mm is not None]
    assert bought == sorted(bought, reverse=True)
