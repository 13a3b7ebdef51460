"""A page that asks where a thing lies offers every known place, once, and stays light."""

import pytest

from stash.model import Cloth, Cut, Outline

MANY = 3750
MOST_BYTES = 150_000
"""What a page with so many places may weigh; a phone on a slow network waits for each of them."""


@pytest.fixture
def shelves(web_stash):
    """A cut on each of many shelves; the code of the first."""
    cloth = Cloth(name="Dune linen")
    with web_stash.together():
        cuts = [web_stash.cuts.receive(Cut(
            code="", cloth=cloth, outline=Outline.rectangle(2000.0, 1400.0),
            place=f"Shelf {n:04d}")).code for n in range(MANY)]
    return cuts[0]


def test_every_place_stands_once_on_each_page_that_asks_for_one(web_client, web_stash, shelves):
    """Also where two forms ask: a cut's page, a blank label's, the forms for what is new."""
    [blank] = web_stash.labels.reserve(1)
    pages = [f"/c/{shelves}", f"/c/{blank}", "/cuts/new", "/bins/new", "/entry/", "/labels/",
             f"/several/?code={shelves}"]
    for path in pages:
        page = web_client.get(path).text

        assert page.count("Shelf 1234<") == 1, path
        assert page.count('id="place-names"') == 1, path
        assert len(page.encode()) < MOST_BYTES, (path, len(page.encode()))
