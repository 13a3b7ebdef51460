"""Words find cloth and notions, and nothing that is typed can break the search."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stash.model import Bin, Cloth, Construction, Cut, FibreShare, Notion, NotionKind, Outline
from stash.store import open_stash
from stash.store.words import colour_words


@pytest.fixture(scope="module")
def stash(tmp_path_factory):
    """Three cuts and a bin."""
    with open_stash(tmp_path_factory.mktemp("loft")) as stash:
        for name, fibre, colour in (
            ("Crêpe", "silk", "#7a1f2b"),
            ("Dune", "flax", "#c9b691"),
            ("Harbour stripe", "cotton", "#1f3a7a"),
        ):
            cloth = Cloth(
                name=name, construction=Construction.WOVEN, colours=(colour,),
                fibres=(FibreShare(fibre, 100.0),),
            )
            stash.cuts.receive(Cut(code="", cloth=cloth, outline=Outline.rectangle(1000, 1400)))
        notion = Notion(kind=NotionKind.BUTTON, name="Horn", notes="from the old coat")
        stash.bins.receive(Bin(code="", notion=notion, amount=4))
        yield stash


def names(stash, typed):
    """The names of what was found."""
    found = stash.search(typed)
    cuts = {cut.code: cut.cloth.name for cut in stash.cuts.all()}
    bins = {bin_.code: bin_.notion.name for bin_ in stash.bins.all()}
    return sorted((cuts | bins)[code] for code in found)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("crepe", ["Crêpe"]),
        ("CRÊP", ["Crêpe"]),
        ("linen", ["Dune"]),
        ("flax", ["Dune"]),
        ("dark red", ["Crêpe"]),
        ("silk woven", ["Crêpe"]),
        ("harb strip", ["Harbour stripe"]),
        ("old coat", ["Horn"]),
        ("wool", []),
        ("", []),
    ],
)
def test_words_are_found_by_their_beginning(stash, typed, expected):
    """Accents and case do not matter; linen is flax; colours have names."""
    assert names(stash, typed) == expected


def test_a_corrected_name_is_found_and_the_old_one_no_longer(tmp_path):
    """The index follows the record, also through an undo and a replay."""
    with open_stash(tmp_path) as stash:
        cut = Cut(code="", cloth=Cloth(name="Moss"), outline=Outline.rectangle(1000, 1400))
        code = stash.cuts.receive(cut).code
        event = stash.cloths.correct(code, Cloth(name="Fern"))
        assert (stash.search("fern"), stash.search("moss")) == ([code], [])
        stash.ledger.undo(event.id)
        assert (stash.search("fern"), stash.search("moss")) == ([], [code])
        stash.ledger.replay()
        assert stash.search("moss") == [code]


@settings(suppress_health_check=[
    HealthCheck.function_scoped_fixture, HealthCheck.too_slow], max_examples=200)
@given(typed=st.text(max_size=40) | st.sampled_from(['"', "a* OR", "NEAR(", "text:x", "-", "^a"]))
def test_no_text_breaks_the_search(stash, typed):
    """Quotes, operators, anything: an answer, never an error."""
    assert isinstance(stash.search(typed), list)


@pytest.mark.parametrize(
    ("colour", "word"),
    [
        ("#ff0000", "red"), ("#00ff00", "green"), ("#0000ff", "blue"), ("#ffff00", "yellow"),
        ("#ffffff", "white"), ("#000000", "black"), ("#808080", "grey"), ("#ffa500", "orange"),
        ("#800080", "purple"), ("#a52a2a", "red"), ("#40e0d0", "turquoise"),
    ],
)
def test_colours_have_their_plain_names(colour, word):
    """The hexadecimal values are those of CSS Color Module Level 4, section 6.1 (from memory)."""
    assert word in colour_words(colour)
