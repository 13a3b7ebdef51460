"""The life of a cut on a phone: cut differently, bitten, joined, half used."""

import re

import pytest
from playwright.sync_api import expect

from stash.model import Cloth, Cut, Outline
from stash.workroom.cuts import traced
from stash.workroom.grain import GrainBy

pytestmark = pytest.mark.browser


@pytest.fixture
def code(record):
    """Two metres of cloth, 1.4 m wide."""
    return record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(2000.0, 1400.0))).code


def dragged(page, svg, start, end):
    """A finger goes down at one place of a drawing and up at another; millimetres, y down."""
    spots = svg.evaluate("""(svg, spots) => spots.map(([x, y]) => {
        const at = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM());
        return [at.x, at.y];
    })""", [start, end])
    page.mouse.move(*spots[0])
    page.mouse.down()
    page.mouse.move(*[(a + b) / 2 for a, b in zip(*spots, strict=True)])
    page.mouse.move(*spots[1])
    page.mouse.up()


def test_the_edge_of_what_is_left_is_dragged_and_squared_off(page, loft, record, code):
    """The far edge to 1.5 m, its lower corner to 1.2 m; then the ragged end is squared off."""
    page.goto(f"{loft[0]}/c/{code}")
    page.get_by_role("link", name="It was cut differently").click()
    page.wait_for_url("**/as-cut")
    svg = page.locator("[data-frame]")
    svg.click(trial=True)  # it lies still, in view
    dragged(page, svg, (2000, 700), (1500, 700))
    dragged(page, svg, (1500, 1400), (1200, 1400))
    page.get_by_role("button", name="This is left").click()
    page.get_by_text("Recorded.").wait_for()
    left = record.cuts.get(code).outline
    assert left.area_mm2 == pytest.approx((1500 + 1200) / 2 * 1400, rel=0.02)
    page.get_by_role("button", name="Square off the ragged ends").click()
    page.get_by_text("Squared off.").wait_for()
    assert record.cuts.get(code).outline.is_rectangle
    assert record.cuts.get(code).length_mm == pytest.approx(1200, rel=0.02)


def test_without_scripts_it_was_cut_straight_across(open_page, loft, record, code):
    """At 80 cm from the near end, and the near part was taken."""
    page = open_page(java_script_enabled=False)
    page.goto(f"{loft[0]}/cuts/{code}/as-cut")
    page.get_by_label("So far from the near end").fill("80 cm")
    page.get_by_label("Which part was taken").select_option("near")
    page.get_by_role("button", name="Save").click()
    page.get_by_text("Recorded.").wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(1200.0)


def test_a_corner_and_a_hole_are_tapped_when_a_cut_comes_in(page, loft, record, fits):
    """A corner of 40 x 30 cm off the far end and a hole of 10 x 10 cm: the area is less by both."""
    page.goto(f"{loft[0]}/cuts/new")
    name = f"Bitten drill {len(record.cuts.all())}"
    page.get_by_label("Cloth", exact=True).fill(name)
    page.get_by_label("Length there is").fill("2 m")
    page.get_by_label("Usable width").fill("140 cm")
    page.get_by_text("A part of it is missing already").click()
    page.get_by_role("button", name="Corner: far end, upper edge").click()
    first, second = page.locator("[data-bite]").nth(0), page.locator("[data-bite]").nth(1)
    first.get_by_label("Length of the missing part").fill("40 cm")
    first.get_by_label("Its width").fill("30 cm")
    page.get_by_role("button", name="A hole in the middle").click()
    second.get_by_label("Length of the missing part").fill("10 cm")
    second.get_by_label("Its width").fill("10 cm")
    second.get_by_label("From the near end").fill("50 cm")
    second.get_by_label("From the right edge").fill("60 cm")
    drawn = page.locator("[data-cloth]").first
    for part in ("M1600,300h400v-300h-400z", "M500,800h100v-100h-100z"):
        expect(drawn).to_have_attribute("d", re.compile(part))
    page.get_by_role("button", name="Save the cut").click()
    page.get_by_text("Saved. Its code is").wait_for()
    outline = next(c for c in record.cuts.all() if c.cloth.name == name).outline
    assert outline.area_mm2 == pytest.approx(2000 * 1400 - 400 * 300 - 100 * 100)
    assert len(outline.holes_mm) == 1
    fits(page)


def test_the_grain_of_a_traced_strip_is_pointed_out(page, loft, record, code):
    """Its page asks; the short edge is tapped as the selvedge, and the strip lies along it."""
    traced(record, code, Outline.rectangle(900.0, 300.0), grain=GrainBy.LONGEST)
    page.goto(f"{loft[0]}/c/{code}")
    page.get_by_role("link", name="Point the grain out").click()
    page.wait_for_url("**/grain")
    short = page.locator("[data-edge][data-turn='-90.00'], [data-edge][data-turn='90.00']").first
    short.locator(".edge-hold").dispatch_event("click")
    expect(page.locator("[name=edge]:checked")).to_have_value(short.get_attribute("data-edge"))
    page.get_by_role("button", name="So it runs").click()
    page.get_by_text("Its grain is on record").wait_for()
    cut = record.cuts.get(code)
    assert (cut.length_mm, cut.width_mm) == (pytest.approx(300.0), pytest.approx(900.0))
    expect(page.get_by_role("link", name="Point the grain out")).to_have_count(0)
