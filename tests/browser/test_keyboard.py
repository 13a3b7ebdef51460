"""Without a mouse, without motion, without scripts: the whole job by keyboard and plain forms."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from stash.model import Cloth, Cut, Outline

pytestmark = pytest.mark.browser

MOST_STEPS = 260
"""Presses of Tab before it is a trap; the longest page of the demo has fewer things to reach."""
# What is focused shows it: an outline of its own, or beside it where the field itself is hidden.
SHOWN = """() => {
  const own = document.activeElement;
  if (own === document.body) return true;
  const drawn = (element) => element && getComputedStyle(element).outlineStyle !== "none"
    && parseFloat(getComputedStyle(element).outlineWidth) >= 2;
  return own.matches(":focus-visible") && (drawn(own) || drawn(own.nextElementSibling));
}"""


def reach(page: Page, selector: str) -> None:
    """Press Tab until it is there; every step shows where one is."""
    for _step in range(MOST_STEPS):
        page.keyboard.press("Tab")
        assert page.evaluate(SHOWN), page.evaluate("document.activeElement.outerHTML.slice(0, 200)")
        if page.evaluate("wanted => document.activeElement.matches(wanted)", selector):
            return
    raise AssertionError(f"{selector} is not reached by Tab on {page.url}")


def type_into(page: Page, selector: str, text: str) -> None:
    """Reach a field and write in it."""
    reach(page, selector)
    page.keyboard.type(text)


def test_a_cut_is_recorded_asked_about_and_labelled_by_keyboard(page, loft, record):
    """Tab, Enter and Space do it all; the first Tab of a page is the way past its head."""
    address, _data, _made = loft
    page.goto(f"{address}/cuts/new")
    reach(page, ".skip")
    assert page.locator(".skip").bounding_box()["x"] >= 0
    page.keyboard.press("Enter")
    expect(page).to_have_url(f"{address}/cuts/new#page")
    type_into(page, "[name=cloth]", "Keyed canvas")
    type_into(page, "[name=length]", "2.4 m")
    type_into(page, "[name=width]", "148 cm")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Keyed canvas").wait_for()
    code = next(cut.code for cut in record.cuts.all() if cut.cloth.name == "Keyed canvas")

    page.goto(f"{address}/become/?cut={code}")
    reach(page, "[name=garment][value=tote-bag]")
    page.keyboard.press("Space")
    reach(page, "form[method=post] button.main")
    page.keyboard.press("Enter")
    page.wait_for_selector("[data-over=yes]")
    expect(page.get_by_text("1 cut is big enough.")).to_be_visible()

    page.goto(f"{address}/labels/?code={code}")
    reach(page, "form[method=post] button.main")
    with page.expect_response(lambda answer: answer.request.method == "POST") as made:
        page.keyboard.press("Enter")
    assert made.value.status < 400
    record.cuts.discard(code, despite_hold=True)


@pytest.mark.parametrize("path", [
    "/", "/become/", "/labels/", "/pocket/", "/scan/", "/people/new"])
def test_tab_goes_through_a_page_and_out_again(page, loft, path):
    """No trap, and the focus is seen at every step."""
    page.goto(loft[0] + path)
    reach(page, ".foot a:last-child")


def test_nothing_moves_for_whoever_asked_for_stillness(page, loft):
    """Neither transition nor animation runs, and scrolling jumps."""
    page.emulate_media(reduced_motion="reduce")
    for path in ("/", f"/c/{loft[2]['cuts'][0]}", "/become/", "/pocket/", "/entry/", "/scan/"):
        page.goto(loft[0] + path)
        moving = page.evaluate(
            "[...document.querySelectorAll('*')].filter(e => {"
            " const own = getComputedStyle(e); return parseFloat(own.transitionDuration) > 0"
            " || own.animationName !== 'none' || own.scrollBehavior === 'smooth'})"
            ".map(e => e.outerHTML.slice(0, 80))")
        assert moving == [], path
        assert page.evaluate("document.getAnimations().length") == 0, path


def test_without_scripts_a_cut_is_recorded_asked_about_and_labelled(open_page, loft, record):
    """Every step is a plain form; the answer comes on a page that asks for itself again."""
    page = open_page("desk", java_script_enabled=False)
    page.goto(f"{loft[0]}/cuts/new")
    page.get_by_label("Cloth", exact=True).fill("Plain-form canvas")
    page.get_by_label("Length there is").fill("2.4 m")
    page.get_by_label("Usable width").fill("148 cm")
    page.get_by_role("button", name="Save the cut").click()
    page.get_by_role("heading", name="Plain-form canvas").wait_for()
    code = next(cut.code for cut in record.cuts.all() if cut.cloth.name == "Plain-form canvas")

    page.goto(f"{loft[0]}/become/?cut={code}")
    page.get_by_label("Tote bag", exact=True).check()
    page.get_by_role("button", name="Look through the stash").click()
    page.wait_for_selector("[data-over=yes]")
    page.get_by_text("1 cut is big enough.").wait_for()

    page.goto(f"{loft[0]}/c/{code}")
    page.get_by_role("button", name="10 cm").click()
    page.get_by_text("2.30 m is left").wait_for()

    page.goto(f"{loft[0]}/labels/?code={code}")
    with page.expect_response(lambda answer: answer.request.method == "POST") as made:
        page.locator("form[method=post] button.main").click()
    assert made.value.status < 400
    record.cuts.discard(code, despite_hold=True)


def test_enter_takes_the_length_that_was_typed_and_no_ready_one(page, loft, record):
    """Not the first of the ready lengths beside it, which is what a browser sends by itself."""
    cut = record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Keyed twill"), outline=Outline.rectangle(3000.0, 1400.0))).code
    page.goto(f"{loft[0]}/c/{cut}")
    page.get_by_label("Or another length").fill("1.3 m")
    page.keyboard.press("Enter")
    expect(page.get_by_text("Cut off 1.30 m.")).to_be_visible()
    assert record.cuts.get(cut).length_mm == pytest.approx(1700.0)


def test_enter_at_a_price_records_that_it_was_sold(page, loft, record):
    """The button beside the price is the one that Enter presses."""
    cut = record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Keyed drill"), outline=Outline.rectangle(3000.0, 1400.0))).code
    page.goto(f"{loft[0]}/c/{cut}")
    page.get_by_text("It leaves the stash").click()
    page.get_by_label("Sold for").fill("12")
    page.keyboard.press("Enter")
    expect(page.get_by_text("It has left the stash.")).to_be_visible()
    assert record.cuts.card(cut).gone == "sold"
