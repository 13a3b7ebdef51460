"""Finding: the same words for page and command, facets with true counts, several at once."""

import json
import re
from html import unescape

import pytest
from click.testing import CliRunner

from stash.model import Bin, Cloth, Construction, Cut, FibreShare, Notion, NotionKind, Outline
from stash.store.counting import facet_counts
from stash.store.finding import FACETS, ORDERS, CutQuery, found_cuts, worded
from stash.workroom import finding
from stash.workroom.cut_orders import CUT_ORDERS
from web.command import main

LINEN, DRILL = FibreShare("flax", 100), FibreShare("cotton", 100)
CUTS = (
    # name, fibre, colour, g/m2, length, width, place, washed
    ("Dune", LINEN, "#e6dcc4", 150, 2200, 1400, "Loft shelf 1", True),
    ("Dune", LINEN, "#e6dcc4", 150, 600, 1400, "Remnant basket", False),
    ("Tide drill", DRILL, "#26365c", 250, 1500, 1500, "Loft shelf 1", True),
    ("Soot drill", DRILL, "#1b1b1d", 310, 3100, 900, "Étagère 2", False),
)


@pytest.fixture
def loft(web_stash):
    """Four cuts and two bins; their codes."""
    codes = [web_stash.cuts.receive(Cut(
        code="", outline=Outline.rectangle(length, width), place=place, washed=washed,
        cloth=Cloth(name=name, fibres=(fibre,), colours=(colour,), mass_gsm=mass,
                    construction=Construction.WOVEN))).code
        for name, fibre, colour, mass, length, width, place, washed in CUTS]
    for name, colour in (("Shell", "#ece5d8"), ("Corozo", "#23364a")):
        web_stash.bins.receive(Bin(code="", notion=Notion(
            kind=NotionKind.BUTTON, name=name, colour=colour), amount=9, place="Tin row A"))
    return codes


@pytest.mark.parametrize(("words", "cuts", "bins"), [
    ("linen", 2, 0), ("flax", 2, 0), ("lin", 2, 0), ("Leinen", 2, 0), ("Baumwolle", 2, 0),
    ("coton", 2, 0), ("blue", 1, 1), ("bleu", 1, 1), ("dunkelblau", 1, 1), ("schwarz", 1, 0),
    ("natur", 2, 0), ("drill loft", 1, 0), ("etagere", 1, 0), ("Knopf", 0, 2), ("boutons", 0, 2),
    ("shell tin", 0, 1), ("velvet", 0, 0), ("drill velvet", 0, 0), ("", 4, 2),
])
def test_every_word_must_be_found_in_any_of_the_three_languages(web_stash, loft, words, cuts, bins):
    """In the name, the fibre, the colour, the place: every word, or the beginning of one."""
    found = len(finding.cut_cards(web_stash, words)), len(finding.bin_cards(web_stash, words))

    assert found == (cuts, bins)


def test_the_command_and_the_page_find_the_same(web_client, web_stash, loft):
    """{"cuts": [...], "bins": [...]}; a code finds what carries it."""
    for words in ("blau", "linen loft", loft[3]):
        result = CliRunner().invoke(main, [
            "--data", str(web_stash.folder.path), "find", *words.split(), "--json"])
        found = json.loads(result.stdout)
        page = web_client.get("/", query_string={"q": words}).text

        assert set(found) == {"cuts", "bins"}
        assert {cut["code"] for cut in found["cuts"]} == {c for c in loft if f"/c/{c}" in page}


def test_the_count_of_a_facet_is_how_many_cuts_choosing_it_leaves(web_stash, loft):
    """For every value of every facet, with and without another choice made."""
    db = web_stash.ledger.db
    for kept in ((), (("fibre", "cotton"),), (("place", "Loft shelf 1"),)):
        with worded(db, CutQuery()) as here:
            counts = facet_counts(here, CutQuery(chosen=kept))
            for name in FACETS:
                for value, count in counts[name].items():
                    chosen = (*(one for one in kept if one[0] != name), (name, value))
                    found = found_cuts(here, CutQuery(chosen=chosen), 0, 10)
                    assert found.count == count == len(found.codes), (kept, name, value)


@pytest.mark.parametrize(("asked", "count"), [
    ("fibre=flax", 2), ("fibre=flax&washed=yes", 1), ("colour=blue", 1), ("weight=light", 2),
    ("width=0-1000", 1), ("length=2000", 2), ("suits=shirt", 2), ("held=yes", 0),
    ("least=1.5 m", 3), ("least=1 m&fibre=cotton", 2), ("fibre=nothing", 0), ("suits=nothing", 0),
    ("width=wide", 0), ("length=x", 0), ("colour=blurple", 0),
])
def test_a_facet_narrows_the_page_down(web_client, loft, asked, count):
    """By links alone: no script is needed; what no cut has leaves none."""
    page = web_client.get(f"/?{asked}")

    assert page.status_code == 200
    assert page.text.count('class="bar"') == count


def test_every_order_that_is_offered_is_one_the_record_knows():
    """The names that are read stand in one table, their SQL in another: the same keys."""
    assert {order.key for order in CUT_ORDERS} == set(ORDERS)


@pytest.mark.parametrize("view", ["scale", "list", "table", "nonsense"])
def test_each_way_to_show_them_shows_every_cut(web_client, loft, view):
    """To scale, as pictures, as a table; an unknown one is to scale."""
    page = web_client.get(f"/?view={view}").text

    assert all(f"/c/{code}" in page for code in loft)


def test_a_search_is_kept_and_forgotten_with_an_undo(web_client, web_stash, loft):
    """Kept under a name it is one tap; forgotten it can be brought back."""
    web_client.post("/searches/keep", data={
        "search": "Linen here", "query": "fibre=flax&by=longest"})

    page = unescape(web_client.get("/").text)
    assert re.search(r'href="/\?fibre=flax&by=longest">Linen here', page)
    page = web_client.post("/searches/forget", data={"search": "linen  HERE"},
                           follow_redirects=True).text
    assert finding.kept(web_stash) == []
    event = re.search(r'name="event" value="(\d+)"', page)[1]
    web_client.post("/history/undo", data={"event": event})
    assert [one.name for one in finding.kept(web_stash)] == ["Linen here"]


def test_those_ticked_move_together_as_one_act(web_client, web_stash, loft):
    """Cuts and bins; one undo puts each back where it lay."""
    [bin_code, _] = [b.code for b in web_stash.bins.all()]
    page = web_client.get(f"/several/?code={loft[0]}&code={loft[3]}&code={bin_code}").text
    assert "3 ticked" in page

    before = web_stash.ledger.newest()
    page = web_client.post("/several/move", data={
        "code": [loft[0], loft[3], bin_code], "place": "Cedar chest"}, follow_redirects=True).text

    assert [web_stash.cuts.get(c).place for c in (loft[0], loft[3])] == ["Cedar chest"] * 2
    assert web_stash.bins.get(bin_code).place == "Cedar chest"
    assert web_stash.ledger.newest() == before + 1
    web_client.post("/history/undo", data={
        "event": re.search(r'name="event" value="(\d+)"', page)[1]})
    assert web_stash.cuts.get(loft[3]).place == "Étagère 2"


def test_the_facts_of_several_cloths_are_set_as_one_act(web_client, web_stash, loft):
    """Only what is filled in; a cloth that two of them share is set once."""
    before = web_stash.ledger.newest()

    web_client.post("/several/facts", data={
        "code": loft[:3], "care": "30 °C", "weight_word": "", "colour": ""})

    cloths = [web_stash.cuts.get(code).cloth for code in loft]
    assert [cloth.care for cloth in cloths] == ["30 °C"] * 3 + [""]
    assert [cloth.mass_gsm for cloth in cloths] == [150, 150, 250, 310]
    assert web_stash.ledger.newest() == before + 1


@pytest.mark.parametrize(("path", "form"), [
    ("move", {"place": "X"}), ("move", {"code": ["AAAAAA"], "place": "X"}), ("facts", {}),
    ("facts", {"fibres": "unobtainium"}), ("move", {"code": [], "place": ""}),
])
def test_nothing_ticked_and_nothing_sound_is_refused(web_client, loft, path, form):
    """One sentence, nothing written."""
    answer = web_client.post(f"/several/{path}", data=form)

    assert answer.status_code == 422
    assert 'role="alert"' in answer.text


def test_their_labels_are_chosen_on_the_page_of_labels(web_client, loft):
    """The ticked ones go there ticked."""
    page = web_client.get(f"/labels/?code={loft[0]}&code={loft[1]}").text

    assert len(re.findall(rf'value="(?:{loft[0]}|{loft[1]})"\s+checked', page)) == 2


def test_a_scanned_place_says_and_shows_what_lies_there(web_client, web_stash, loft):
    """Its page draws each cut; a camera is told how many there are."""
    code = web_stash.places.receive("Loft shelf 1").code

    page = web_client.get(f"/c/{code}").text
    told = web_client.get(f"/scan/what?text={code}").json

    assert all((f"/c/{c}" in page) == (n in (0, 2)) for n, c in enumerate(loft))
    assert told["detail"] == "2 things lie here"
