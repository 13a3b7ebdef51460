"""Label codes: blank until bound, never given out twice, and aware of what they say."""

from __future__ import annotations

import re
from random import Random

import pytest

from stash.errors import Conflict, InvalidInput
from stash.model import Bin, Cloth, Code, Cut, Notion, NotionKind, Outline
from stash.store import open_stash


@pytest.fixture
def stash(tmp_path):
    """An empty stash of its own."""
    with open_stash(tmp_path / "loft") as stash:
        yield stash


def a_cut():
    """1.00 x 1.40 m of linen."""
    return Cut(code="", cloth=Cloth(name="Linen"), outline=Outline.rectangle(1000.0, 1400.0))


def test_reserved_codes_are_valid_different_and_blank(stash):
    """A thousand at once; each carries its check character."""
    codes = stash.labels.reserve(1000)
    assert len(set(codes)) == 1000
    assert [Code.parse(code).text for code in codes] == codes
    assert stash.labels.state(codes[0]) == "blank"
    assert stash.labels.blank() == sorted(codes)


def test_a_code_that_was_ever_met_is_drawn_again(stash, monkeypatch):
    """Chance repeats itself; the second draw of the same code is thrown away."""
    monkeypatch.setattr("stash.store.labels.SystemRandom", lambda: Random(1))
    first = stash.cuts.receive(a_cut())
    stash.ledger.undo(first.id)
    second = stash.labels.reserve(1)[0]
    assert second != first.code
    assert stash.labels.new_code() not in (first.code, second)


def test_a_blank_label_is_bound_once(stash, sentence):
    """Cut, bin or place: whatever it was put on, it is in use from then on."""
    cut, bin_, place = stash.labels.reserve(3)
    stash.cuts.receive(a_cut(), code=cut)
    notion = Notion(kind=NotionKind.ZIP, name="Coil zip", size_mm=200.0)
    stash.bins.receive(Bin(code="", notion=notion, amount=2.0), code=bin_.lower())
    stash.places.receive("Shelf 1", code=place)
    assert [stash.labels.state(c) for c in (cut, bin_, place)] == ["cut", "bin", "place"]
    for code in (cut, bin_, place):
        with pytest.raises(Conflict) as refused:
            stash.cuts.receive(a_cut(), code=code)
        assert re.search("already on a", sentence(refused.value))
    assert stash.labels.blank() == []


def test_a_code_that_was_never_made_here_is_unknown(stash):
    """It is not mistaken for a blank one of ours."""
    other = stash.labels.new_code()
    assert stash.labels.state(other) == "unknown"


def test_a_mistyped_code_is_refused(stash, sentence):
    """The check character catches it before anything is looked up."""
    code = stash.labels.reserve(1)[0]
    wrong = code[:-1] + ("2" if code[-1] != "2" else "3")
    with pytest.raises(InvalidInput) as refused:
        stash.labels.state(wrong)
    assert re.search("wrong character", sentence(refused.value))


def test_the_code_of_a_discarded_cut_is_not_given_out_again(stash):
    """Its label may still be stuck on something."""
    code = stash.cuts.receive(a_cut()).code
    stash.cuts.discard(code)
    assert stash.labels.state(code) == "cut"
    with pytest.raises(Conflict):
        stash.cuts.receive(a_cut(), code=code)


def test_what_a_label_said_when_it_was_printed_is_remembered(stash):
    """So that labels whose record has changed can be printed again."""
    code = stash.cuts.receive(a_cut()).code
    stash.labels.printed({code: {"length_mm": 1000.0}})
    assert stash.labels.all_printed() == {code: {"length_mm": 1000.0}}
    assert stash.labels.get(code).printed_at is not None
    assert stash.labels.get(code).what == "cut"


@pytest.mark.parametrize("count", [0, -3, 5001])
def test_only_a_sensible_number_of_labels_is_reserved(stash, count):
    """None, less than none, and a sheet that nobody prints."""
    with pytest.raises(InvalidInput):
        stash.labels.reserve(count)


def test_reserving_again_with_the_same_token_gives_the_same_codes(stash):
    """A reloaded page does not use up another sheet."""
    assert stash.labels.reserve(24, token="t") == stash.labels.reserve(24, token="t")
    assert len(stash.labels.blank()) == 24


def test_scanning_a_place_then_a_cut_moves_it_there(stash, sentence):
    """A move may name the place by its label, in any case."""
    place = stash.places.receive("Shelf  1").code
    cut = stash.cuts.receive(a_cut()).code
    stash.cuts.move(cut, place.lower())
    assert stash.cuts.get(cut).place == "Shelf 1"
    assert stash.places.contents("shelf 1") == [cut]
    with pytest.raises(Conflict) as refused:
        stash.places.receive("SHELF 1")
    assert re.search("already a label", sentence(refused.value))


def test_the_address_on_older_labels_stays_known(stash):
    """The present address first; setting the same again changes nothing."""
    stash.settings.set_address("http://loft.local:8080/")
    stash.settings.set_address("HTTP://10.0.0.7:8080")
    stash.settings.set_address("http://10.0.0.7:8080")
    assert stash.settings.address == "http://10.0.0.7:8080"
    assert stash.settings.addresses == ["http://10.0.0.7:8080", "http://loft.local:8080"]
    stash.settings.set_address("http://loft.local:8080")
    assert stash.settings.addresses == ["http://loft.local:8080", "http://10.0.0.7:8080"]
    with pytest.raises(InvalidInput):
        stash.settings.set_address("javascript:alert(1)")


def test_every_stash_has_a_name_of_its_own(stash, tmp_path):
    """Made once, the same ever after, and different from another's."""
    with open_stash(tmp_path / "other") as other:
        assert stash.settings.instance == stash.settings.instance
        assert stash.settings.instance != other.settings.instance
