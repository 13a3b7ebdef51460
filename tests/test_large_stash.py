"""Pages read only what they show; what they show is the same as if they had read everything."""

from __future__ import annotations

import re

import pytest

from stash.demo import fill
from stash.match.cloth.similar import Wish, alike
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline
from stash.store import open_stash
from stash.store.unread import Unread
from stash.workroom import places
from stash.workroom.questions.likeness import ask_like


@pytest.fixture(scope="module")
def loft(tmp_path_factory):
    """The Heron Loft, with a cloth whose name is not of plain letters, given in large ones."""
    with open_stash(tmp_path_factory.mktemp("loft")) as stash:
        fill(stash)
        _receive_one_more(stash)
        yield stash


def _receive_one_more(stash):
    return stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="ÉCRU Nettle linen", colours=("#e8dcc0",), mass_gsm=180.0),
        outline=Outline.rectangle(2000, 1400), place="Étagère", keep_for="a Smock"))


@pytest.mark.parametrize("wish", [
    Wish(colour="#7a1f2b"), Wish(words="linen"), Wish(words="écru"), Wish(words="nettle étagère"),
    Wish(words="smock"), Wish(mass_gsm=180.0), Wish(colour="#1f3a7a", mass_gsm=190.0),
    Wish(colour="#e8dcc0", words="flax"), Wish(words="nothing of the kind"), Wish(words="100%"),
])
def test_what_is_like_a_wish_is_the_same_as_among_all_cuts(loft, wish):
    """The same cuts in the same order, with the same distance."""
    assert ask_like(loft, wish) == alike(loft.cuts.all(), wish)


def test_a_list_of_places_counts_what_each_place_shows(loft):
    """However its name is spelled."""
    code = loft.cuts.all()[0].code
    loft.cuts.move(code, "  LOFT   shelf 1 ")
    rows = places.rows(loft)

    assert {row.name: row.things for row in rows} == {
        row.name: len(loft.places.contents(row.name)) for row in rows}


def test_so_many_are_read_in_the_order_that_is_asked(loft):
    """Codes of nothing are left out; those that are gone are told as gone."""
    one, other, third = (cut.code for cut in loft.cuts.all()[:3])
    loft.cuts.gift(other)
    cards = loft.cuts.cards_of([third, "AAAAAA", other, one])

    assert [card.cut.code for card in cards] == [third, other, one]
    assert cards == [loft.cuts.card(code) for code in (third, other, one)]
    bins = [held.code for held in loft.bins.all()[:4]]
    assert loft.bins.cards_of(bins) == [loft.bins.card(code) for code in bins]


def test_notions_come_page_by_page_and_every_one_once(web_client, web_stash):
    """A hundred and twenty at a time; the count is of all."""
    with web_stash.together():
        made = {web_stash.bins.receive(Bin(code="", amount=3.0, notion=Notion(
            kind=NotionKind.BUTTON if n % 2 else NotionKind.ZIP, name=f"Thing {n}",
            size_mm=20.0))).code for n in range(250)}
    seen = []
    for first in (0, 120, 240):
        page = web_client.get(f"/bins/?first={first}").text
        assert "250 bins" in page
        seen += re.findall(r'href="/c/(\w{6})"', page)

    assert sorted(seen) == sorted(made)
    assert "first=120" in web_client.get("/bins/?q=thing").text
    assert "Thing 249" in web_client.get("/bins/?q=thing+249").text


def test_labels_offer_what_came_last_and_find_the_rest(web_client, web_stash):
    """What is ticked stays ticked while one looks for more."""
    with web_stash.together():
        codes = [web_stash.cuts.receive(Cut(
            code="", cloth=Cloth(name=f"Dune {n:03d}"),
            outline=Outline.rectangle(2000, 1400))).code for n in range(160)]
    page = web_client.get(f"/labels/?code={codes[1]}").text

    assert f'value="{codes[-1]}"' in page
    assert f'value="{codes[0]}"' not in page
    found = web_client.get(f"/labels/?q=dune+000&code={codes[1]}").text
    assert re.search(rf'value="{codes[1]}"\s+checked', found)
    assert f'value="{codes[0]}"' in found
    assert f'value="{codes[-1]}"' not in found


@pytest.mark.parametrize(("address", "module"), [
    ("/places/", "places"), ("/stock-take/", "stocktake")])
def test_a_long_list_of_places_comes_in_parts(web_client, web_stash, monkeypatch, address, module):
    """Each part says which of how many it shows, and leads to the next."""
    monkeypatch.setattr(f"web.pages.{module}.AT_ONCE", 2)
    for shelf in ("Shelf 1", "Shelf 2", "Shelf 3"):
        web_stash.places.receive(shelf)
    page = web_client.get(address).text
    assert "Shelf 2" in page and "Shelf 3" not in page and "1 to 2 of 3" in page
    assert f'href="{address}?first=2"' in page
    assert "Shelf 3" in web_client.get(f"{address}?first=2").text


def test_counts_kept_from_the_last_look_are_those_of_the_record(web_client, web_stash):
    """What is recorded since is counted; so is what is undone."""
    _receive_one_more(web_stash)
    assert "1 cut" in web_client.get("/").text
    second = _receive_one_more(web_stash)
    assert "2 cuts" in web_client.get("/").text
    web_stash.ledger.undo(second.id)
    assert "1 cut" in web_client.get("/").text


def test_a_large_event_is_told_read_and_taken_back_like_any_other(web_client, web_stash):
    """It names more than is read at once; the history says how many, also of its undo."""
    codes = [code for _ in range(2) for code in web_stash.labels.reserve(5000)]
    event = web_stash.labels.printed({code: {"name": code} for code in codes})
    assert isinstance(web_stash.ledger.latest(1)[0].change, Unread)

    for _look in range(2):
        assert re.search(r"10\D?000", web_client.get("/history/").text)
    assert web_stash.ledger.latest(1) == [event] == [web_stash.ledger.event(event.id)]
    web_stash.ledger.undo(event.id)
    page = web_client.get("/history/").text
    assert "taken back" in page and web_stash.labels.all_printed() == {}
