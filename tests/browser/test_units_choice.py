"""The first screen of an empty stash asks how she measures; one tap, and every field speaks so."""

import pytest
from playwright.sync_api import expect

from stash.workroom.opening import open_stash
from web import create_app
from web.http_server import answering

pytestmark = pytest.mark.browser

SIZES = ["phone", "desk"]
CHOICES = [("Yards and inches", "with its unit: yd, in, m or cm", "1 5/8 yd"),
           ("Metres and centimetres", "a bare number is centimetres", "1.5\u00a0m")]


@pytest.fixture
def empty(tmp_path):
    """The address of a stash that holds nothing, and its folder."""
    with answering(create_app(tmp_path / "new"), "127.0.0.1", 0) as pages:
        yield f"http://127.0.0.1:{pages.port}", tmp_path / "new"


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(("button", "hint", "example"), CHOICES)
def test_one_tap_before_the_first_length(open_page, empty, size, button, hint, example):
    """Both choices stand on the first screen without scrolling, for a browser in US English."""
    address, _data = empty
    page = open_page(size, locale="en-US")
    page.goto(address)
    for name, _hint, _example in CHOICES:
        expect(page.get_by_role("button", name=name)).to_be_in_viewport()
    page.get_by_role("button", name=button).click()
    expect(page.get_by_role("heading", name="How do you measure?")).to_have_count(0)
    expect(page.get_by_role("status").first).to_contain_text("Lengths are in")

    page.get_by_role("link", name="Record the first cut").click()
    length = page.get_by_label("Length there is")
    expect(length).to_have_attribute("placeholder", example)
    expect(page.locator(".field").filter(has=length)).to_contain_text(hint)
    expect(page.get_by_role("button", name=button)).to_have_count(0)


def test_on_the_entry_page_too_and_an_undo_asks_again(open_page, empty):
    """Who came straight to the entry page is asked there; a wrong tap is taken back at once."""
    address, data = empty
    page = open_page("phone", locale="en-US")
    page.goto(f"{address}/entry/")
    page.get_by_role("button", name="Yards and inches").click()
    expect(page.get_by_label("Length there is")).to_have_attribute("placeholder", "1 5/8 yd")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_label("Length there is")).to_have_attribute("placeholder", "1.5\u00a0m")
    page.get_by_role("button", name="Yards and inches").click()
    expect(page.get_by_label("Length there is")).to_have_attribute("placeholder", "1 5/8 yd")
    with open_stash(data) as stash:
        assert stash.settings.get("units") == "inches"
