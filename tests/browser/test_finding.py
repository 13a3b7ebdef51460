"""Finding as one types, by facet and by keyboard; several ticked; all of it at 360 and 1280."""

import pytest

pytestmark = pytest.mark.browser


def test_what_is_typed_is_found_without_another_tap(page, loft):
    """The list follows the words; the address keeps them."""
    address, _, _ = loft
    page.goto(address)
    all_of_them = page.locator("[data-row]").count()

    page.get_by_label("Find", exact=True).press_sequentially("voile")
    page.wait_for_function(
        "all => document.querySelectorAll('[data-row]').length < all", arg=all_of_them)

    assert all("voile" in text for text in page.locator("[data-row] .title").all_inner_texts())
    assert page.url.endswith("?q=voile")


def test_the_slash_and_the_arrows_go_where_the_hands_are(page, loft):
    """"/" to the field, down through the rows, up again, return opens."""
    address, _, _ = loft
    page.goto(address)

    page.keyboard.press("/")
    assert page.evaluate("document.activeElement.name") == "q"
    for _ in range(2):
        page.keyboard.press("ArrowDown")
    second = page.locator("[data-row]").nth(1)
    assert second.evaluate("e => e === document.activeElement")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.activeElement.name") == "q"
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


def test_a_facet_is_a_link_also_without_scripts(browser, loft, record):
    """Choose, see, tick two, move them: no script at all."""
    address, _, made = loft
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{address}/?tick=1&view=list")
    for box in page.locator("[name=code]").all()[:2]:
        box.check()
    page.get_by_role("button", name="Go on with those ticked").click()
    page.get_by_label("New place").fill("Window sill")
    page.get_by_role("button", name="Move", exact=True).click()
    page.get_by_text("2 things moved.").wait_for()
    context.close()
    assert len(record.places.contents("Window sill")) == 2
