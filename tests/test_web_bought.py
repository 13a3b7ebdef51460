"""What was on the list and is bought goes on record in one tap, and its label in the next."""

import re

import pytest
from until import once_over

from stash.model import Person


@pytest.fixture
def listed(web_client, web_stash, kernels):
    """Fitted trousers for Odile on an empty stash: cloth, a zip, thread and more to buy."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040, "waist": 820}))
    sent = web_client.post("/shopping/begin", data={
        "garment": "trousers", "person": "Odile", "option-waist": "fitted"})
    return once_over(web_client, sent.location)


def line_of(page: str, words: str) -> str:
    """The number of the list's line that says these words."""
    item = next(part for part in page.split("<li") if words in part)
    return re.search(r'name="line" value="(\d+)"', item)[1]


def test_what_was_bought_goes_on_record_as_it_was_sold(web_client, web_stash, listed):
    """A zip of a sold length, spools of so many metres, cloth between its selvedges.

    Cloth is unwashed unless she says so; the same tap counts once; a line that is not on
    the list is refused in a sentence.
    """
    page, where = web_client.get(listed).text, f"{listed}/bought"
    bought = web_client.post(where, data={"line": line_of(page, "1 zip")})
    web_client.post(where, data={"line": line_of(page, "of sewing thread")})
    cloth = {"cloth": "1", "line": "0", "row": "1", "name": "Shop drill", "washed": "on",
             "token": "bought-once-only"}
    web_client.post(where, data=cloth)
    web_client.post(where, data=cloth)
    bins = {card.bin.notion.kind.value: card.bin for card in web_stash.bins.cards()}
    (card,) = web_stash.cuts.cards()

    assert "Print its label" in web_client.get(bought.location).text
    assert (bins["zip"].amount, bins["zip"].notion.size_mm % 10) == (1, 0)
    assert bins["thread"].amount % 100_000 == 0
    assert (card.cut.washed, card.cut.cloth.name) == (True, "Shop drill")
    assert card.cut.length_mm >= 1000
    assert card.cut.width_mm < 1500
    assert card.cut.width_presumed
    assert web_client.post(where, data={"line": "99"}).status_code == 404
