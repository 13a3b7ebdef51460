"""The history tells every kind of event as a sewist would, in every language.

No name from inside the record, nothing in another language than the reader's.
"""

import re

import pytest

from stash.errors import Conflict
from stash.fact import fact
from stash.ledger import Kind
from stash.model import (
    Bin,
    Cloth,
    Cut,
    Notion,
    NotionKind,
    Outline,
    Pattern,
    Person,
    Piece,
    Plan,
    PlannedGarment,
)
from stash.model.measured import Measured, Origin
from stash.sentences import Reader, say, says
from stash.sentences.reader import LANGUAGES
from stash.store import open_stash
from stash.store.backup.second_place import name_place
from stash.units import System
from stash.workroom import (
    bins,
    cuts,
    finding,
    history,
    measuring,
    people,
    places,
    plans,
    settings,
    several,
    stock_take,
)
from stash.workroom.event_facts import SETTINGS, about, happened

METRIC = Reader(System.METRIC)
SQUARE = Pattern(garment="bag", pieces=(
    Piece(name="X", quantity=1, outline_mm=((0, 0), (100, 0), (100, 100))),))
PLAN = Plan(name="Für Zoë", garments=(PlannedGarment(garment="trousers", person="Zoë"),))
TYPED = {
    "units": "inches", "language": "fr", "address": "http://x.local:5000", "edge": "5mm",
    "clearance": "5mm", "off_grain": "2", "widths": "115cm", "increment": "5cm",
    "selvedge": "10mm", "printer_shift": "1,1", "machines": "lockstitch", "remnant": "20cm",
}
# English that no French or German sentence has, and what only a program reads.
ENGLISH = re.compile(
    r"\b(of|the|cut|back|lent|sold|took|moved|held|saved|made|washed|left|things?|labels?|labelled|"
    r"pattern|search|units|widths|given|thrown|counted|measured|removed)\b", re.I)
INSIDE = re.compile(r"_|\b[a-z]+:\w|\bmm\b|instance|None|\{|'")


@pytest.fixture
def stash(tmp_path):
    """An empty stash of its own."""
    with open_stash(tmp_path / "loft", who="Odile") as stash:
        yield stash


def a_cut(stash, length_mm=3200.0):
    """A cut of plain cloth."""
    cut = Cut(code="", cloth=Cloth(name="X7"), outline=Outline.rectangle(length_mm, 1400.0))
    return stash.cuts.receive(cut).code


def a_bin(stash, kind=NotionKind.BUTTON, amount=12.0):
    """Buttons, or something that is measured."""
    notion = Notion(kind=kind, name="N3", size_mm=15.0)
    return stash.bins.receive(Bin(code="", notion=notion, amount=amount)).code


def told(stash, event=None, language="en"):
    """What the history says of an event, the newest where none is named."""
    event = event or history.latest(stash, 1)[0]
    reader = Reader(System.METRIC, language)
    kind = history.notion_kind(stash, event.code)
    whom = about(stash, event)
    did = say(happened(event, kind, history.undone_by(stash, event)), reader)
    return f"{say(whom, reader)}: {did}" if whom else did


def live_with_cuts(stash):
    """Everything that can happen to a cut."""
    code, other, given = a_cut(stash), a_cut(stash), a_cut(stash)
    stash.cuts.cut_off(code, 123.0)
    stash.cuts.remains(code, 800.0)
    cuts.cut_strip(stash, other, None, 100.0)
    left, corner = Outline.rectangle(2000, 1300), Outline.rectangle(300, 400)
    stash.cuts.cut_out(other, left, remnants=[(None, corner)])
    cuts.measure(stash, other, 1900.0, 1300.0)
    cuts.wash(stash, other, 1850.0, 1280.0)
    cuts.move(stash, other, "Xy")
    cuts.lend(stash, other, "Bram")
    cuts.back(stash, other)
    several.move(stash, [code, other], "Xy")
    several.describe(stash, [code], lambda cloth: Cloth(name="X8"), keep_for="Zoë")
    cuts.give_away(stash, given)
    cuts.throw_away(stash, a_cut(stash))
    cuts.sell(stash, a_cut(stash), 1200)
    cuts.join(stash, a_cut(stash), a_cut(stash), 1000.0, 1000.0)
    stash.cuts.remains(code, 0.0)


def live_with_bins(stash):
    """Everything that can happen to a bin."""
    for code in (a_bin(stash), a_bin(stash, NotionKind.ELASTIC, 2345.0)):
        bins.take(stash, code, 3.0)
        bins.put(stash, code, 1.0)
        bins.count(stash, code, 50.0)
        bins.move(stash, code, "Xy")
    seen = Bin(code="", notion=Notion(kind=NotionKind.BUTTON, name="N4", size_mm=15.2), amount=9.0)
    measuring.receive_seen(stash, [measuring.SeenBin(held=seen, error=1.0, size_error_mm=0.2)])
    measuring.count_seen(
        stash, code, Measured(value=20.0, error=1.0, origin=Origin.PHOTOGRAPHED), replace=True)
    bins.give_away(stash, code)


def live_with_names(stash):
    """Persons, plans, patterns, searches, places, labels."""
    code = a_bin(stash)
    stash.people.save(Person(name="Zoë", measurements_mm={"hip": 1000.0}))
    stash.people.save(Person(name="Zoë", measurements_mm={"hip": 1001.0}))
    stash.people.remove("Zoë")
    stash.plans.save(PLAN)
    stash.plans.hold("Für Zoë", bins={code: 5.0})
    plans.release(stash, "Für Zoë")
    stash.plans.hold("Für Zoë", bins={code: 5.0})
    plans.made(stash, "Für Zoë")
    plans.remove(stash, "Für Zoë")
    stash.patterns.save("Zoës X", SQUARE)
    stash.patterns.save("Zoës X", SQUARE)
    stash.patterns.remove("Zoës X")
    finding.keep(stash, "Zoës Q", "q=1")
    finding.forget(stash, "Zoës Q")
    places.receive(stash, "Xy")
    stash.labels.reserve(3)


def live_with_settings(stash, folder):
    """Everything that is decided once."""
    assert stash.settings.instance
    settings.change(stash, TYPED)
    name_place(stash, folder)
    stash.settings.set("workroom", "Xy")
    stock_take.finish(stash, "Xy", stock_take.Standing(("A",), (), (), ()))
    history.undo_newest(stash)


@pytest.fixture
def lived(stash, tmp_path):
    """A stash in which everything has happened."""
    live_with_cuts(stash)
    live_with_bins(stash)
    live_with_names(stash)
    live_with_settings(stash, tmp_path)
    return stash


def test_everything_that_can_happen_is_told_in_every_language(lived):
    """Every kind of event there is, and of each what it says."""
    events = history.latest(lived, 1000)
    steps = [step for event in events for step in history.taken_apart(event)]
    assert {e.kind for e in events} | {s.kind for s in steps} == set(Kind)

    for event in events:
        for language in LANGUAGES:
            said = told(lived, event, language)
            names = re.sub(r"“[^”]*”|«[^»]*»|„[^“]*“|\bXy\b", "", said)
            assert not INSIDE.search(names), said
            assert language == "en" or not ENGLISH.search(names), said


@pytest.mark.parametrize(("act", "said"), [
    (lambda s: stock_take.finish(s, "Shelf 1", stock_take.Standing(("A", "B"), ("C",), (), ())),
     "Stock-take of “Shelf 1”: Found: 2, missing: 1, out of place: 0"),
    (lambda s: settings.change(s, {"edge": "5mm", "units": "inches"}),
     "Settings: Kept free along the edges of a cut and Units: Saved"),
    (lambda s: places.receive(s, "Shelf 1"), "Place labelled"),
    (lambda s: people.add(s, "Odile Farrant", {"hip": 100.0}), "Person “Odile Farrant”: Saved"),
])
def test_what_bears_no_label_is_named(stash, act, said):
    """A setting by the words of its page, a stock-take by its place."""
    act(stash)

    assert told(stash) == said


def test_what_was_taken_off_is_called_as_she_wrote_it(stash):
    """The event that removes a person, and the one that takes it back, know her by her name."""
    stash.people.save(Person(name="Odile Farrant", measurements_mm={"hip": 1000.0}))
    stash.people.remove("odile farrant")
    assert told(stash) == "Person “Odile Farrant”: Removed"

    history.undo_newest(stash)
    assert told(stash) == "Person “Odile Farrant”: Taken back: Removed"


@pytest.mark.parametrize(("language", "said"), [
    ("en", "(Back again, 20"), ("fr", "(De retour, "), ("de", "(Wieder da, "),
])
def test_what_bars_an_undo_is_called_as_in_the_history(stash, language, said):
    """What came back is no back of a garment."""
    code = a_cut(stash)
    lent = cuts.lend(stash, code, "Bram").event
    cuts.back(stash, code)

    with pytest.raises(Conflict) as refused:
        history.undo(stash, lent.id)
    assert said in says(refused.value, Reader(System.METRIC, language))


def test_a_setting_is_called_as_on_its_page(web_client):
    """What the page of settings asks for is what the history says was changed."""
    page = web_client.get("/settings/").text

    for name in SETTINGS - {"workroom", "instance", "second_place", "printer_shift_mm"}:
        assert say(fact(f"setting_{name}"), METRIC) in page, name


def test_every_setting_that_can_be_changed_has_its_words():
    """A new setting without words would be told as one of another version."""
    known = {"addresses" if name == "address" else name for name in settings.READERS}

    assert known <= SETTINGS
