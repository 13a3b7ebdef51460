"""A dart is moved and a panel cut on the page, before beside after, with no script running."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_draft_is_altered_and_kept_without_scripts(open_page, fits, loft, record, size):
    """From the draft to a pattern of her own, in plain forms, at the size of a phone and a desk;
    nothing runs off the page sideways.
    """
    address, _, _ = loft
    page = open_page(size, java_script_enabled=False)
    page.goto(f"{address}/drafts/straight-skirt?person=Odile+Farrant&option-waist=fitted")
    page.get_by_role("link", name="Alter it").click()

    page.get_by_text("Move a dart", exact=True).click()
    form = page.locator("form", has=page.locator('input[name="do"][value="move"]'))
    form.get_by_label("Which dart").select_option("front|waist 1")
    form.get_by_label("To the edge").select_option("front|side")
    form.get_by_label("Where on it").fill("9")
    form.get_by_role("button", name="Show it").click()
    page.get_by_text("it opens at the side").wait_for()

    page.get_by_text("Add a facing", exact=True).click()
    form = page.locator("form", has=page.locator('input[name="do"][value="facing"]'))
    form.get_by_label("Along the edge").select_option("back|waist")
    form.get_by_label("How wide").fill("5")
    form.get_by_role("button", name="Show it").click()
    page.get_by_text("has a facing 5 cm wide").wait_for()
    expect(page.locator("figure svg").filter(visible=True)).to_have_count(2)
    fits(page)

    name = f"Ferry skirt {size}"
    page.get_by_label("Keep it as").fill(name)
    page.get_by_role("button", name="Keep it").click()
    page.get_by_text("How it came about").wait_for()
    made = record.patterns.get(name)
    assert len(made.recipe.steps) == 2
    assert "back waist facing" in {p.name for p in made.pieces}
