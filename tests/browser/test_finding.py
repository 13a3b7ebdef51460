"""Finding as one types, by facet and by keyboard; several ticked; all of it at 360 and 1280."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def test_what_is_typed_is_found_without_another_tap(page, loft):
    """The list follows the words; the address keeps them."""
    address, _, _ = loft
    page.goto(address)
    titles = page.locator("[data-row] .title")
    expect(titles.filter(has_not_text="voile")).not_to_have_count(0)

    page.get_by_label("Find", exact=True).press_sequentially("voile")

    expect(titles.filter(has_not_text="voile")).to_have_count(0)
    expect(titles).not_to_have_count(0)
    expect(page).to_have_url(f"{address}/?q=voile")


def test_the_slash_and_the_arrows_go_where_the_hands_are(page, loft):
    """"/" to the field, down through the rows, up again, return opens."""
    address, _, _ = loft
    page.goto(address)

    page.keyboard.press("/")
    field = page.get_by_label("Find", exact=True)
    expect(field).to_be_focused()
    for _ in range(2):
        page.keyboard.press("ArrowDown")
    expect(page.locator("[data-row]").nth(1)).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(field).to_be_focused()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.get_by_text("This much is left").wait_for()


def test_facets_views_and_ticks_fit_and_can_be_tapped(page, loft):
    """Nothing runs off; everything to tap is 44 CSS pixels high (WCAG 2.2, 2.5.5)."""
    address, _, _ = loft
    for path in ("/?view=scale", "/?view=list&tick=1", "/?view=table&fibre=cotton",
                 "/several/?" + "&".join(f"code={c}" for c in loft[2]["cuts"][:3])):
        page.goto(address + path)
        for summary in page.locator("summary").all():
            summary.click()

        wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
        low = page.evaluate(
            "[...document.querySelectorAll('button, .button, .facet, select, summary')]"
            ".filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5)"
            ".map(e => e.outerHTML.slice(0, 80))")
        assert (wide, low) == (0, []), path


def test_a_facet_is_a_link_also_without_scripts(open_page, loft, record):
    """Choose, see, tick two, move them: no script at all."""
    address, _, made = loft
    page = open_page("desk", java_script_enabled=False)
    page.goto(f"{address}/?tick=1&view=list")
    for box in page.locator("[name=code]").all()[:2]:
        box.check()
    page.get_by_role("button", name="Go on with those ticked").click()
    page.get_by_label("New place").fill("Window sill")
    page.get_by_role("button", name="Move", exact=True).click()
    page.get_by_text("2 things moved.").wait_for()
    assert len(record.places.contents("Window sill")) == 2
