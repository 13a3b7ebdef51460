"""People are found however their name is typed."""

from __future__ import annotations

import re

import pytest

from stash.errors import InvalidInput, NotFound
from stash.model import Person
from stash.store import open_stash


@pytest.fixture
def stash(tmp_path):
    """A stash with two people on record."""
    with open_stash(tmp_path) as stash:
        stash.people.save(Person(name="Zoë Pérez", measurements_mm={"hip": 1000.0}, body="women"))
        stash.people.save(Person(name="Bram Okell"))
        yield stash


@pytest.mark.parametrize("typed", ["Zoë Pérez", "zoe perez", "  ZOË   PÉREZ "])
def test_case_accents_and_spaces_do_not_matter(stash, typed):
    """One person, not three."""
    assert stash.people.get(typed).measurements_mm == {"hip": 1000.0}
    stash.people.save(Person(name=typed, measurements_mm={"hip": 1010.0}))
    assert len(stash.people.all()) == 2


def test_who_is_not_on_record_is_told_who_is_near(stash, sentence):
    """A part of the name, or a slip of the finger, finds the right one."""
    with pytest.raises(NotFound) as refused:
        stash.people.get("Perez")
    assert re.search("there is Zoë Pérez", sentence(refused.value))
    with pytest.raises(NotFound) as refused:
        stash.people.get("Bran Okel")
    assert re.search("there is Bram Okell", sentence(refused.value))


def test_earlier_measurements_come_back_by_undo(stash):
    """A child grows; a slip is taken back."""
    event = stash.people.save(Person(name="Zoë Pérez", measurements_mm={"hip": 100.0}))
    stash.ledger.undo(event.id)
    assert stash.people.get("Zoë Pérez").measurements_mm == {"hip": 1000.0}


def test_a_person_can_be_taken_off_the_list_and_back(stash):
    """Her measurements are in the ledger still."""
    event = stash.people.remove("Bram Okell")
    assert [p.name for p in stash.people.all()] == ["Zoë Pérez"]
    stash.ledger.undo(event.id)
    assert len(stash.people.all()) == 2


@pytest.mark.parametrize(
    "person",
    [
        Person(name=" "),
        Person(name="x" * 101),
        Person(name="x", body="giants"),
        Person(name="x", measurements_mm={"waist": 1.0}),
        Person(name="x", measurements_mm={"waist": float("nan")}),
        Person(name="x", measurements_mm={"hip": 90_000.0}),
    ],
)
def test_nobody_measures_like_that(stash, person):
    """No name, no such body table, a waist of a millimetre, a hip of ninety metres."""
    with pytest.raises(InvalidInput):
        stash.people.save(person)
