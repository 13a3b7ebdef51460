"""The answer and its lay on a phone: nothing beside the screen, no table to push about."""

import pytest

pytestmark = pytest.mark.browser

LONG_MS = 300_000


@pytest.fixture
def answered(page, loft):
    """The address of an answer of the demo, for the trousers of its first person."""
    address, _, made = loft
    page.goto(f"{address}/become/")
    page.get_by_label("Trousers (pants)", exact=True).check()
    page.get_by_label(made["people"][0]).check()
    page.get_by_role("button", name="Look through the stash").click()
    page.wait_for_selector("[data-over=yes]", timeout=LONG_MS)
    return page.url


def test_the_tables_of_a_lay_are_read_without_pushing_them(page, answered, fits, until):
    """Single or double, and where each piece lies."""
    page.get_by_role("link", name="Open the lay large").first.click()
    page.wait_for_selector("#spreads")

    fits(page)
    until(page, (
        "[...document.querySelectorAll('.scroll')].every(e => e.scrollWidth <= e.clientWidth + 1)"))
