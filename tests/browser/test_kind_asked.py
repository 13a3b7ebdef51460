"""A new bin asks only what can be said of the kind of notion that was chosen."""

import pytest
from playwright.sync_api import expect

from stash.model.notions import SAID_OF, NotionKind

pytestmark = pytest.mark.browser
ASKED = {"thickness": "Thickness, for buttons", "shank": "Domed, or on a shank",
         "mass": "Weight, for interfacing", "fusible": "Fusible: ironed on",
         "shortenable": "A zip that can be shortened (coil)"}


def test_what_no_such_notion_has_is_not_asked(page, loft):
    """A button's thickness, a zip's coil, the weight of interfacing: each of its own kind."""
    page.goto(f"{loft[0]}/bins/new")
    for kind in NotionKind:
        page.get_by_label("What is in it").select_option(kind.value)
        for fact, label in ASKED.items():
            expect(page.get_by_label(label)).to_be_visible(visible=kind in SAID_OF[fact])


def test_what_was_filled_in_stays_in_sight(page, loft):
    """Of another kind it would be refused; so it can be seen, and emptied."""
    page.goto(f"{loft[0]}/bins/new")
    page.get_by_label("Thickness, for buttons").fill("4 mm")
    page.get_by_label("What is in it").select_option("zip")

    expect(page.get_by_label("Thickness, for buttons")).to_be_visible()
