"""The data folder and the file's form: made on demand, changed over safely, never guessed at."""

from __future__ import annotations

import os
import sqlite3
import stat
import threading
from types import SimpleNamespace

import pytest
from sqlite_utils import Database, Migrations

from stash.errors import StoreTooNew, Unavailable
from stash.model import Person
from stash.store import open_stash
from stash.store.backup.integrity import check
from stash.store.connection import Connections
from stash.store.folder import DataFolder
from stash.store.migrations import STEPS, migrate


def later(*, broken=False):
    """The steps of a later version: ours and one more."""
    steps = Migrations("stash")
    for step in STEPS.pending(Database(memory=True, execute_plugins=False)):
        steps(name=step.name)(step.fn)

    @steps(name="9999_later")
    def _(db):
        db.execute("CREATE TABLE half (id INTEGER PRIMARY KEY) STRICT")
        if broken:
            raise RuntimeError("stop")

    return steps


@pytest.fixture
def old(tmp_path):
    """A stash of this version with a person in it, and its files."""
    with open_stash(tmp_path) as stash:
        stash.people.save(Person(name="Odile Farrant"))
    folder = DataFolder(tmp_path)
    connections = Connections(folder.database)
    yield folder, connections.here()
    connections.close()


def test_the_numbers_of_the_steps_only_grow():
    """A step is never slipped in before one that was released."""
    names = [s.name for s in STEPS.pending(Database(memory=True, execute_plugins=False))]
    assert [name[:4] for name in names] == [f"{n:04}" for n in range(1, len(names) + 1)]


def test_a_copy_is_kept_before_the_form_is_changed(old):
    """The copy is the file as it was, and it can be read."""
    folder, db = old
    migrate(db, folder.copies, later())
    copy = next(folder.copies.glob("before-9999_later-*.db"))
    kept = sqlite3.connect(copy)
    assert kept.execute("SELECT count(*) FROM event").fetchone() == (1,)
    kept.close()
    assert "half" in db.table_names()


def test_a_step_that_fails_leaves_nothing_behind(old):
    """No half-made table, and this version still opens the stash."""
    folder, db = old
    with pytest.raises(RuntimeError):
        migrate(db, folder.copies, later(broken=True))
    assert "half" not in db.table_names()
    with open_stash(folder.path) as stash:
        assert stash.people.get("odile farrant")


def test_a_stash_of_a_newer_version_is_refused_unchanged(old):
    """One clear sentence, and not a byte is touched."""
    folder, db = old
    migrate(db, folder.copies, later())
    db.close()
    before = folder.database.read_bytes()
    with pytest.raises(StoreTooNew, match="store_too_new"):
        open_stash(folder.path)
    assert folder.database.read_bytes() == before


def test_many_may_open_a_new_stash_at_the_same_moment(tmp_path, monkeypatch):
    """One of them makes the tables; the others find them, however long that takes."""
    monkeypatch.setattr("stash.store.connection.BUSY_S", 3600.0)
    failures = []

    def start():
        try:
            open_stash(tmp_path / "loft").close()
        except Exception as error:  # collected, then asserted empty
            failures.append(error)

    threads = [threading.Thread(target=start) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []


def test_what_is_not_a_stash_is_said_to_be_damaged(tmp_path):
    """A text file in its place is neither read nor overwritten."""
    (tmp_path / "stash.db").write_text("dear diary, this is certainly not a database" * 50)
    with pytest.raises(Unavailable, match="record_damaged"):
        open_stash(tmp_path)
    assert (tmp_path / "stash.db").read_text().startswith("dear diary")


def test_a_full_disk_is_said_and_leaves_the_record_as_it_was(tmp_path):
    """The file may not grow any more (SQLite's own limit stands in for the disk)."""
    with open_stash(tmp_path) as stash:
        stash.people.save(Person(name="Odile Farrant"))
        pages = stash.ledger.db.execute("PRAGMA page_count").fetchone()[0]
        stash.ledger.db.execute(f"PRAGMA max_page_count = {pages}").fetchone()
        before = stash.ledger.cached()
        with pytest.raises(Unavailable, match="disk_full"):
            stash.labels.reserve(1000)
        assert stash.ledger.cached() == before
        stash.ledger.db.execute("PRAGMA max_page_count = 100000").fetchone()
        assert len(stash.labels.reserve(10)) == 10


def test_on_a_full_disk_everything_can_be_read_and_writing_says_why_not(tmp_path, monkeypatch):
    """SQLite then opens the record for reading only; that is no fault of the folder's owner."""
    with open_stash(tmp_path) as stash:
        stash.people.save(Person(name="Odile Farrant"))
        stash.settle()
    file = f"{(tmp_path / 'stash.db').as_uri()}?mode=ro"
    monkeypatch.setattr("stash.store.connection._addresses", lambda _path: iter([file]))
    with open_stash(tmp_path) as stash:
        assert [person.name for person in stash.people.all()] == ["Odile Farrant"]
        with pytest.raises(Unavailable, match="record_read_only"):
            stash.people.save(Person(name="Pip Okell"))
        monkeypatch.setattr(
            "shutil.disk_usage", lambda _place: SimpleNamespace(total=9, used=9, free=0))
        with pytest.raises(Unavailable, match="disk_full"):
            stash.people.save(Person(name="Pip Okell"))
        assert len(stash.people.all()) == 1


def test_a_damaged_page_is_found_by_a_check(tmp_path):
    """A block of the file overwritten."""
    with open_stash(tmp_path) as stash:
        stash.labels.reserve(500)
        stash.ledger.db.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    path = tmp_path / "stash.db"
    content = bytearray(path.read_bytes())
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 4096] = b"\x55" * 4096
    path.write_bytes(content)
    assert [f.kind for f in check(tmp_path).faults] == ["file_damaged"]


def test_a_folder_that_cannot_be_made_is_named(tmp_path):
    """The sentence says which folder and what to do."""
    (tmp_path / "file").write_text("x")
    with pytest.raises(Unavailable, match="folder_unwritable"):
        open_stash(tmp_path / "file" / "loft")


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such permission bits")
def test_the_secret_key_is_made_once_and_for_its_owner_only(tmp_path):
    """The same key after closing; nobody else may read the file."""
    with open_stash(tmp_path) as stash:
        key = stash.secret_key
    with open_stash(tmp_path) as again:
        assert again.secret_key == key
    assert len(key) == 64
    assert stat.S_IMODE((tmp_path / "secret.key").stat().st_mode) == 0o600


def test_without_room_for_a_secret_key_there_is_one_for_this_run(tmp_path, monkeypatch):
    """So that the pages can be read on a full disk; an empty file is never taken for a key."""
    (tmp_path / "secret.key").write_bytes(b"")

    def full(*_given):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as disk:
        disk.setattr("stash.store.folder.write_private", full)
        with open_stash(tmp_path) as stash:
            assert len(stash.secret_key) == 64
    with open_stash(tmp_path) as stash:
        key = stash.secret_key
    with open_stash(tmp_path) as stash:
        assert (stash.secret_key, len(key)) == (key, 64)


def test_every_table_is_strict_and_foreign_keys_are_on(tmp_path):
    """A text can never end up in a column of lengths; also when the tables are there already."""
    open_stash(tmp_path).close()
    with open_stash(tmp_path) as stash:
        db = stash.ledger.db
        assert db.execute("PRAGMA foreign_keys").fetchone() == (1,)
        assert db.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        ours = ("event", "touched", "cloth", "cut", "bin", "record", "findable")
        strict = {row[1]: row[5] for row in db.execute("PRAGMA table_list")}
        assert all(strict[name] for name in ours)
