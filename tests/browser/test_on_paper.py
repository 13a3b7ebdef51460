"""What is printed from a page: all that she takes along, dark on white, nothing for a screen."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def test_the_lengths_to_buy_are_on_the_printed_page(open_page, loft):
    """The table stands in a form, whose buttons are left out on paper, and nothing else."""
    page = open_page("desk", color_scheme="dark")
    page.goto(f"{loft[0]}/shopping/")
    page.locator("input[name=garment][value=shirt]").check()
    page.locator("input[name=person]").first.check()
    page.locator("summary", has_text="The cloth hoped for").click()
    page.get_by_label("Buy cloth even where the stash has it").check()
    page.get_by_role("button", name="What must I buy?").click()
    page.wait_for_selector("[data-over=yes]", state="attached")
    page.emulate_media(media="print", color_scheme="light")
    expect(page.get_by_role("columnheader", name="buy")).to_be_visible()
    expect(page.get_by_role("button")).to_have_count(0)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_page_is_printed_dark_on_white_whatever_the_screen_is(open_page, loft, scheme):
    """Its paper and its ink, and those of what it frames."""
    page = open_page("desk", color_scheme=scheme)
    page.goto(f"{loft[0]}/plans/")
    page.emulate_media(media="print", color_scheme=scheme)
    for name, colour in (("--paper", "#fff"), ("--ink", "#000"), ("--card", "#fff")):
        assert page.evaluate(
            "(name) => getComputedStyle(document.documentElement).getPropertyValue(name)",
            name).strip() == colour
