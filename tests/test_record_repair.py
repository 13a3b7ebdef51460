"""A damaged or lost record is found, named, and brought back in one step."""

from __future__ import annotations

import io
import os
import sqlite3
import stat
import subprocess
import sys
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace

import pytest
from PIL import Image

from stash.errors import InvalidInput, NotFound, StashError, Unavailable
from stash.model import Cloth, Cut, Outline, Person
from stash.store import open_stash
from stash.store.backup import second_place
from stash.store.backup.daily import copies
from stash.store.backup.integrity import check
from stash.store.backup.repair import offered, repair
from stash.store.ledger import Hand

FIRST = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)


def on_day(place, day):
    """The stash as it is opened on one day."""
    return open_stash(place, hand=Hand(clock=lambda: FIRST + timedelta(days=day)))


@pytest.fixture
def place(tmp_path):
    """Three days of records, a photograph on the first, a copy on the second and the third."""
    place = tmp_path / "loft"
    with on_day(place, 0) as stash:
        code = stash.cuts.receive(Cut(
            code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code
        out = io.BytesIO()
        Image.new("RGB", (40, 30), "teal").save(out, "PNG")
        stash.photos.add(code, out.getvalue())
    for day in (1, 2):
        with on_day(place, day) as stash:
            for n in range(3):
                stash.people.save(Person(name=f"Person {day} {n}"))
    with on_day(place, 2) as stash:
        stash.settle()
    return place


def sql(place, text):
    """Something done to the file behind the ledger's back."""
    db = sqlite3.connect(place / "stash.db")
    db.execute(text)
    db.commit()
    db.close()


def history(place):
    """Every event."""
    with open_stash(place, keeping=False) as stash:
        return list(stash.ledger.events())


def test_a_sound_record_is_left_alone(place):
    """Not a byte of it is changed."""
    assert check(place).ok
    before = (place / "stash.db").read_bytes()
    assert repair(place).copy is None
    assert (place / "stash.db").read_bytes() == before


@pytest.mark.parametrize(("harm", "kind"), [
    ("UPDATE event SET change = replace(change, '3000', '5000') WHERE id = 1", "event_altered"),
    ("UPDATE event SET change = 'not json' WHERE id = 1", "event_altered"),
    ("DELETE FROM event WHERE id = 4", "events_missing"),
    ("DELETE FROM event WHERE id > 6", "events_missing"),
    ("DELETE FROM touched WHERE event = 2", "touched_disagrees"),
    ("DELETE FROM touched", "touched_disagrees"),
    ("UPDATE cut SET length_mm = 1, outline = replace(outline, '3000', '5000')",
     "table_disagrees"),
    ("DELETE FROM record WHERE noun = 'person'", "table_disagrees"),
])
def test_what_was_done_behind_the_ledgers_back_is_found_and_put_right(place, harm, kind):
    """The fault is named; then everything that can be kept is there again."""
    before = history(place)
    sql(place, harm)
    assert kind in {f.kind for f in check(place).faults}

    done = repair(place)

    assert done.after.ok
    assert check(place).ok
    lost = harm.startswith("DELETE FROM event WHERE id > 6")
    assert history(place) == (before[:6] if lost else before)
    assert done.lost == (len(before) - 6 if lost else 0)


@pytest.mark.parametrize("gone", ["missing", "empty"])
def test_a_missing_or_empty_record_beside_photographs_is_no_new_stash(place, gone):
    """It is said to be lost, and one step brings back the newest copy."""
    before = history(place)
    (place / "stash.db").unlink()
    if gone == "empty":
        (place / "stash.db").touch()
    with pytest.raises(Unavailable, match="record_missing"):
        open_stash(place)
    assert [f.kind for f in check(place).faults] == ["record_missing"]
    assert offered(place) == copies(place / "copies")[0]

    done = repair(place)

    assert done.copy == copies(place / "copies")[0]
    assert history(place) == before[:5]
    assert check(place).ok


def test_a_damaged_file_is_replaced_by_the_newest_good_copy(place):
    """The newest copy is damaged too, so the one before is taken; what lay there is kept."""
    for path in (place / "stash.db", copies(place / "copies")[0]):
        path.write_bytes(b"SQLite format 3\0" + b"\xff" * 9000)
    assert check(place).faults

    done = repair(place)

    assert done.copy == copies(place / "copies")[1]
    assert check(place).ok
    [aside] = (place / "copies").glob("replaced-*")
    assert (aside / "stash.db").read_bytes().startswith(b"SQLite format 3\0\xff")


def test_where_there_is_no_copy_it_is_said(tmp_path):
    """And what lies there stays."""
    (tmp_path / "stash.db").write_bytes(b"SQLite format 3\0" + b"\xff" * 9000)
    with pytest.raises(NotFound, match="no_good_copy"):
        repair(tmp_path)
    assert (tmp_path / "stash.db").stat().st_size == 9016


def test_photographs_lie_beside_the_copies_and_take_no_room_twice(place):
    """They are links; one that is lost or spoilt comes back from there."""
    large, small = sorted((place / "photos").glob("*/*.jpg"), key=lambda p: len(p.name))
    kept = place / "copies" / "photos" / large.parent.name / large.name
    assert kept.samefile(large)
    content = large.read_bytes()
    large.unlink()
    small.unlink()
    assert {f.kind for f in check(place).faults} == {"photo_missing"}
    assert repair(place).after.ok
    assert large.read_bytes() == content
    large.unlink()
    large.write_bytes(content[:-9])
    assert [f.kind for f in check(place).faults] == ["photo_damaged"]
    assert repair(place).after.ok


def test_copies_are_made_in_a_second_place_too(place, tmp_path):
    """With the photographs; when the whole data folder is lost, they are a way back."""
    disk = tmp_path / "disk"
    disk.mkdir()
    before = history(place)
    with on_day(place, 2) as stash:
        second_place.name_place(stash, disk)
        second_place.renew(stash)
        here, there = second_place.last_copies(stash)
    assert there.newest and there.newest.name == here.newest.name
    assert len(list(disk.rglob("*.jpg"))) == 2
    place.rename(tmp_path / "lost")

    done = repair(place, second=disk)

    assert done.after.ok
    assert history(place) == before[:5]
    assert len(list((place / "photos").rglob("*.jpg"))) == 2


def test_the_second_place_follows_day_by_day(place, tmp_path):
    """Whoever serves the pages or lists the copies brings it up to date."""
    from stash.workroom.safekeeping import renew_second_place

    disk = tmp_path / "disk"
    disk.mkdir()
    with on_day(place, 2) as stash:
        second_place.name_place(stash, disk)
    for day in (5, 6):
        on_day(place, day).close()
        assert renew_second_place(place)
        assert list(disk.glob(f"*/day-2026-03-0{1 + day}.db"))
    disk.rename(tmp_path / "unplugged")
    assert not renew_second_place(place)


def test_a_second_place_that_cannot_be_reached_is_named(place, tmp_path):
    """A disk that was unplugged; one inside the data folder is refused at once."""
    disk = tmp_path / "disk"
    disk.mkdir()
    with on_day(place, 2) as stash:
        with pytest.raises(InvalidInput, match="second_place_inside"):
            second_place.name_place(stash, place / "photos")
        second_place.name_place(stash, disk)
        disk.rmdir()
        with pytest.raises(Unavailable, match="second_place_lost"):
            second_place.renew(stash)
        assert not disk.exists()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such permission bits")
def test_everything_is_private_to_its_owner(place):
    """Record, copies and photographs; also where an earlier version left them open."""
    def open_to_others():
        return [p for p in place.rglob("*") if stat.S_IMODE(p.stat().st_mode) & 0o077]

    assert open_to_others() == []
    assert stat.S_IMODE(place.stat().st_mode) == 0o700
    (place / "stash.db").chmod(0o644)
    (place / "photos").chmod(0o755)
    open_stash(place).close()
    assert open_to_others() == []


READING = """
import os, sys
from pathlib import Path
from stash.errors import Unavailable
from stash.model import Person
from stash.store import open_stash
with open_stash(Path(sys.argv[2])) as other:  # so that everything is imported while it can be
    other.cuts.all()
if os.getuid() == 0:  # may write everywhere, so somebody else has to try
    os.setuid(65534)
with open_stash(Path(sys.argv[1])) as stash:
    print(len(stash.people.all()), stash.cuts.all()[0].cloth.name)
    try:
        stash.people.save(Person(name="Nobody"))
    except Unavailable as error:
        print(error.fact.kind)
"""


@pytest.mark.parametrize(("name", "kind"), [
    ("SQLITE_BUSY", "restore_running"), ("SQLITE_IOERR_WRITE", "disk_full"),
    ("SQLITE_FULL", "disk_full"), ("SQLITE_CANTOPEN", "folder_unwritable"),
])
def test_only_another_restore_is_called_one(place, monkeypatch, name, kind):
    """A full disk and a folder that cannot be written are said to be what they are."""
    class Lock:
        def execute(self, _sql):
            error = sqlite3.OperationalError("no")
            error.sqlite_errorname = name
            raise error

        def close(self):
            pass

    monkeypatch.setattr(
        "stash.store.backup.swap.sqlite3", SimpleNamespace(
            connect=lambda *_given, **_named: Lock(), OperationalError=sqlite3.OperationalError))
    with pytest.raises(StashError, match=kind):
        repair(place)


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such permission bits")
def test_a_read_only_folder_can_be_read(place, tmp_path):
    """By another account, or from a disk that is write-protected; writing says why it cannot be."""
    with tempfile.TemporaryDirectory() as room:
        moved = Path(room) / "loft"
        place.rename(moved)
        for path in (Path(room), moved, *moved.rglob("*")):
            path.chmod(0o555 if path.is_dir() else 0o444)
        told = subprocess.run(
            [sys.executable, "-c", READING, str(moved), str(tmp_path / "other")],
            capture_output=True, text=True,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}, cwd="/")
        for path in (Path(room), moved, *moved.rglob("*")):
            path.chmod(0o755 if path.is_dir() else 0o644)

    assert told.stdout.split("\n")[:2] == ["6 Dune", "record_read_only"], told.stderr
