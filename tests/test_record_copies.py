"""The record copies itself once a day, and any copy can become a stash again."""

from __future__ import annotations

import threading
from datetime import UTC, datetime, timedelta

import pytest

from stash.errors import InvalidInput
from stash.model import Person
from stash.store import open_stash
from stash.store.backup.daily import DAYS, copies
from stash.store.backup.restore import restore
from stash.store.ledger import Hand

FIRST = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)


def on_day(folder, day):
    """The stash as it is opened on one day."""
    return open_stash(folder, hand=Hand(clock=lambda: FIRST + timedelta(days=day)))


def test_each_day_begins_with_one_copy_and_the_oldest_are_forgotten(tmp_path):
    """Fourteen days, opened twice each: the last ten copies, and none of the empty first day."""
    for day in range(14):
        for _ in range(2):
            with on_day(tmp_path, day) as stash:
                stash.people.save(Person(name=f"Person {day}"))
    kept = copies(tmp_path / "copies")
    assert len(kept) == DAYS
    assert kept[0].name == "day-2026-03-14.db"
    assert kept[-1].name == "day-2026-03-05.db"


def test_many_that_open_it_first_on_a_day_leave_one_whole_copy(tmp_path):
    """As the pages of several phones do; no half-made file stays behind."""
    with on_day(tmp_path / "loft", 0) as stash:
        for n in range(300):
            stash.people.save(Person(name=f"Person {n}"))
        events = list(stash.ledger.events())
    threads = [threading.Thread(target=lambda: on_day(tmp_path / "loft", 1).close())
               for _ in range(8)]

    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    [copy] = (tmp_path / "loft" / "copies").glob("*.*")
    restore(copy, tmp_path / "new")
    with open_stash(tmp_path / "new") as new:
        assert list(new.ledger.events()) == events


def test_a_copy_is_the_record_of_the_day_before(tmp_path):
    """Brought into an empty folder it is the same, event by event."""
    with on_day(tmp_path / "loft", 0) as stash:
        stash.people.save(Person(name="Odile Farrant"), token="t")
        first = list(stash.ledger.events())
    with on_day(tmp_path / "loft", 1) as stash:
        stash.people.save(Person(name="Bram Okell"))
    restore(copies(tmp_path / "loft" / "copies")[0], tmp_path / "new")
    with open_stash(tmp_path / "new") as new:
        assert list(new.ledger.events()) == first
        assert [p.name for p in new.people.all()] == ["Odile Farrant"]


def test_a_damaged_copy_is_refused(tmp_path):
    """It begins like a database and is none."""
    (tmp_path / "bad.db").write_bytes(b"SQLite format 3\0" + b"\xff" * 5000)
    with pytest.raises(InvalidInput, match="backup_damaged"):
        restore(tmp_path / "bad.db", tmp_path / "new")
    assert not (tmp_path / "new" / "stash.db").exists()


def test_a_folder_that_takes_no_copies_keeps_nobody_from_working(tmp_path):
    """A file lies where the copies should go."""
    with on_day(tmp_path, 0) as stash:
        stash.people.save(Person(name="Odile Farrant"))
    (tmp_path / "copies").write_text("in the way")
    with on_day(tmp_path, 1) as stash:
        assert stash.people.get("Odile Farrant")
