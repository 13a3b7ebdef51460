"""The whole job once, as a person meets it: stick, scan, use, undo, ask, see the lay."""

import re

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def test_from_a_blank_label_to_a_lay(page, loft, record, twice):
    """A blank label becomes a cut; some is cut off and given back; trousers come out of it."""
    address, _, made = loft
    [code] = record.labels.reserve(1)

    page.goto(f"{address}/C/{code.lower()}")
    expect(page.get_by_role("heading", level=1)).to_have_text("What is this?")
    form = page.locator("form", has=page.get_by_role("button", name="Save the cut"))
    form.get_by_label("Cloth", exact=True).fill(f"Story drill {code}")
    form.get_by_label("Length there is").fill("3.2 m")
    form.get_by_label("Usable width").fill("148")
    form.get_by_text("What kind of cloth").click()
    form.get_by_label("Fibres").fill("cotton 100")
    form.get_by_label("Weight").fill("230 g/m2")
    form.get_by_role("button", name="Save the cut").click()
    page.get_by_role("heading", name=f"Story drill {code}", level=1).wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(3200)

    page.get_by_role("button", name="1.2 m").click()
    page.get_by_text("Cut off 1.20 m. 2.00 m is left.").wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(2000)

    page.get_by_role("button", name="Undo", exact=True).click()
    page.get_by_text("Taken back.").wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(3200)

    twice(page.get_by_role("button", name="50 cm"))
    page.get_by_text("Cut off 50 cm. 2.70 m is left.").first.wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(2700)

    page.get_by_role("link", name="What can I make?").click()
    page.get_by_label("Trousers (pants)", exact=True).check()
    page.get_by_label(made["people"][0]).check()
    page.get_by_role("button", name="Look through the stash").click()
    page.wait_for_selector("[data-over=yes]")
    expect(page.get_by_text("1 cut is big enough.")).to_be_visible()
    drawing = page.locator(".lay-drawing img:visible").first
    drawing.scroll_into_view_if_needed()
    expect(drawing).to_have_js_property("complete", True)
    expect(drawing).not_to_have_js_property("naturalWidth", 0)
    page.get_by_role("link", name="Open the lay large").first.click()
    expect(page.get_by_role("rowheader").nth(3)).to_be_visible()
    expect(page.locator(".lead")).to_contain_text(re.compile(r"of\s2\.\d\d\sm used"))


def test_without_scripts_the_plain_forms_do_the_job(open_page, loft, record):
    """Cutting off and asking both work in a browser whose scripts are off."""
    address, _, made = loft
    code = made["cuts"][0]
    before = record.cuts.get(code).length_mm
    page = open_page("desk", java_script_enabled=False)

    page.goto(f"{address}/c/{code}")
    page.get_by_role("button", name="10 cm").click()
    page.get_by_text("Cut off 10 cm.").wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(before - 100)

    page.goto(f"{address}/become/?cut={code}")
    page.get_by_label("Shorts", exact=True).check()
    page.get_by_label(made["people"][0]).check()
    page.get_by_role("button", name="Look through the stash").click()
    page.wait_for_selector("[data-over=yes]")


def test_refused_amounts_lead_to_a_re_measure(page, loft, record):
    """More than there is: the form for the true size stands open and says what is on record."""
    address, _, made = loft
    code = made["cuts"][1]

    page.goto(f"{address}/c/{code}")
    page.get_by_label("Or another length").fill("400 m")
    page.get_by_role("button", name="Cut off", exact=True).click()

    expect(page.get_by_role("alert")).to_contain_text("cannot be cut off")
    expect(page.get_by_label("True length")).to_be_visible()
    page.get_by_label("True length").fill("4.1 m")
    page.get_by_role("button", name="Save the measures").click()
    page.get_by_text("The record now says 4.10 m by").first.wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(4100)
