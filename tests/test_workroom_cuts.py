"""What happens to a cut, whichever door it comes through: page and command do the same."""

from __future__ import annotations

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from shapely.affinity import scale
from shapely.geometry import Polygon

from stash.ledger.shapes import resized
from stash.model import Cloth, Cut, Outline
from stash.workroom.cut_orders import CUT_ORDERS
from web.command import main

BITTEN = Outline(((0, 0), (950, 0), (950, 1400), (400, 1400), (400, 850), (0, 850)))
"""0.95 x 1.40 m with a corner of 40 x 55 cm gone."""


@pytest.fixture
def remnant(web_stash):
    """The code of a bitten remnant, not yet washed."""
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune linen", shrink_along_pct=4), outline=BITTEN)).code


@pytest.fixture
def by_page(web_client):
    """Sends a form of the cut's page."""
    return lambda code, act, **form: web_client.post(f"/cuts/{code}/{act}", data=form)


@pytest.fixture
def by_command(web_stash):
    """Runs ``lengthwise cut`` on the same stash."""
    def run(*words):
        folder = str(web_stash.folder.path)
        result = CliRunner().invoke(main, ["--data", folder, "cut", *words])
        assert result.exit_code == 0, result.output
    return run


@given(st.floats(50, 5000), st.floats(50, 3000))
def test_a_new_size_scales_the_outline_as_shapely_would(length_mm, width_mm):
    """Every corner goes along; the area is that of shapely's scaled polygon."""
    measured = resized(BITTEN, length_mm, width_mm)
    expected = scale(
        Polygon(BITTEN.ring_mm), length_mm / 950, width_mm / 1400, origin=(0, 0))
    assert measured.area_mm2 == pytest.approx(expected.area)
    assert (measured.length_mm, measured.width_mm) == pytest.approx((length_mm, width_mm))


@pytest.mark.parametrize("door", ["page", "command"])
def test_a_bitten_remnant_is_washed_and_stays_bitten(
    web_stash, remnant, by_page, by_command, door
):
    """A corner that was gone before the wash is gone after it."""
    if door == "page":
        by_page(remnant, "wash", washed_length="90 cm", washed_width="138 cm")
    else:
        by_command("wash", remnant, "90cm x 138cm")

    after = web_stash.cuts.get(remnant)
    assert after.washed
    assert not after.outline.is_rectangle
    assert after.outline.area_mm2 == pytest.approx(BITTEN.area_mm2 * 900 / 950 * 1380 / 1400)


@pytest.mark.parametrize("door", ["page", "command"])
def test_a_bitten_remnant_is_measured_again_and_stays_bitten(
    web_stash, remnant, by_page, by_command, door
):
    """The new size is that of the whole; what is missing is still missing."""
    if door == "page":
        by_page(remnant, "re-measure", true_length="97 cm", true_width="140 cm")
    else:
        by_command("measure", remnant, "97cm x 140cm")

    after = web_stash.cuts.get(remnant).outline
    assert after.length_mm == pytest.approx(970)
    assert after.area_mm2 == pytest.approx(BITTEN.area_mm2 * 970 / 950)


def test_a_wash_sent_twice_teaches_the_cloth_once(web_stash, remnant):
    """The second time there is nothing left to shrink, and nothing to learn from it."""
    from stash.workroom import cuts

    for _ in range(2):
        cuts.wash(web_stash, remnant, 893, 1386, "the-same-token", for_cloth=True)

    cloth = web_stash.cuts.get(remnant).cloth
    assert (cloth.shrink_along_pct, cloth.shrink_across_pct) == (6.0, 1.0)


def test_every_order_that_is_offered_is_obeyed(web_stash, web_client):
    """The page offers the rows of one table, and lists the cuts by the one asked for."""
    for name, length_mm in (("Birch", 900), ("Alder", 2000)):
        web_stash.cuts.receive(Cut(
            code="", cloth=Cloth(name=name), outline=Outline.rectangle(length_mm, 1400)))

    page = web_client.get("/?by=shortest").text

    assert all(f'value="{order.key}"' in page for order in CUT_ORDERS)
    assert page.index("Birch") < page.index("Alder")
    page = web_client.get("/?by=longest").text
    assert page.index("Alder") < page.index("Birch")
