"""The form of the record, in numbered steps; a step once released is never edited."""

from __future__ import annotations

import json
import sqlite3
from datetime import UTC, datetime
from pathlib import Path

from stash.errors import StoreTooNew, Unavailable
from stash.ledger import Event, Kind
from stash.ledger.chain import BEGINNING, checksum
from stash.store.connection import writing
from stash.store.database import Database, Migrations
from stash.store.folder import private_file, private_folder
from stash.store.trouble import told

STEPS = Migrations("stash")


@STEPS(name="0001_the_record")
def _the_record(db: Database) -> None:
    """The ledger, and beside it what it adds up to."""
    _create_ledger(db)
    _create_stock(db)
    _create_bins(db)
    _create_records(db)


@STEPS(name="0002_the_chain")
def _the_chain(db: Database) -> None:
    """A checksum for each event, over itself and the one before it."""
    db.execute("ALTER TABLE event ADD COLUMN checksum TEXT NOT NULL DEFAULT ''")
    before, found = BEGINNING, []
    for row in db.execute(
        "SELECT id, at, kind, code, change, who, device, token, undoes FROM event ORDER BY id"
    ):
        before = checksum(before, Event(
            id=row[0], at=row[1], kind=Kind(row[2]), code=row[3], change=json.loads(row[4]),
            who=row[5], device=row[6], token=row[7], undoes=row[8],
        ))
        found.append((before, row[0]))
    db.conn.executemany("UPDATE event SET checksum = ? WHERE id = ?", found)


@STEPS(name="0003_the_life_of_a_cut")
def _the_life_of_a_cut(db: Database) -> None:
    """Whoever has a cut that was lent; with it come new happenings: lent, back, sold, joined."""
    db.execute("ALTER TABLE cut ADD COLUMN lent TEXT")


@STEPS(name="0004_devices")
def _devices(db: Database) -> None:
    """Devices that may use the pages, and offers to pair one. Of keys only a digest is kept."""
    db.execute("""
        CREATE TABLE device (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            name TEXT NOT NULL,
            role TEXT NOT NULL,
            key_sha256 TEXT NOT NULL UNIQUE,
            paired_at TEXT NOT NULL,
            last_used TEXT,
            revoked_at TEXT
        ) STRICT""")
    db.execute("""
        CREATE TABLE device_offer (
            secret_sha256 TEXT PRIMARY KEY,
            name TEXT NOT NULL,
            role TEXT NOT NULL,
            until TEXT NOT NULL
        ) STRICT""")


@STEPS(name="0005_what_is_held")
def _what_is_held(db: Database) -> None:
    """What plans hold is found without looking through everything."""
    for table in ("cut", "bin"):
        db.execute(f"CREATE INDEX {table}_held ON {table}(code) WHERE holds <> '[]'")


@STEPS(name="0006_selvedges")
def _selvedges(db: Database) -> None:
    """Which edges of a traced cut are selvedge."""
    db.execute("ALTER TABLE cut ADD COLUMN selvedges TEXT NOT NULL DEFAULT '[]'")


@STEPS(name="0007_narrow_looks")
def _narrow_looks(db: Database) -> None:
    """What is here is counted and found without reading outlines, notions and what is gone.

    Words that a thing is found by are kept in small letters, so that parts of them are found.
    """
    db.execute("""
        CREATE INDEX cut_here ON cut(
            cloth, length_mm, width_mm, washed, place, acquired, code, gone
        ) WHERE gone IS NULL""")
    db.execute("CREATE INDEX bin_here ON bin(kind, place, colour, size_mm, code, gone)"
               " WHERE gone IS NULL")
    for table in ("cut", "bin"):
        db.execute(f"DROP INDEX {table}_place")
        db.execute(f"CREATE INDEX {table}_place ON {table}(place, gone) WHERE gone IS NULL")
    db.execute("CREATE INDEX cloth_facts"
               " ON cloth(subject, mass_gsm, construction, colour, fibres)")
    db.conn.create_function("casefold", 1, str.casefold, deterministic=True)
    db.execute("UPDATE findable SET text = casefold(text) WHERE text <> casefold(text)")


@STEPS(name="0008_photographs_under_pieces")
def _photographs_under_pieces(db: Database) -> None:
    """Traced pieces name the photograph they lie over; no table changes.

    An earlier Lengthwise would leave it out of the next version of a pattern: it is refused.
    """


@STEPS(name="0009_width_presumed")
def _width_presumed(db: Database) -> None:
    """Which cuts have a width that nobody measured: a usual one, or as a shop sells it."""
    db.execute("ALTER TABLE cut ADD COLUMN width_presumed INTEGER NOT NULL DEFAULT 0")


def _create_ledger(db: Database) -> None:
    """Events, and what each touches."""
    db.execute("""
        CREATE TABLE event (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            at TEXT NOT NULL,
            kind TEXT NOT NULL,
            code TEXT NOT NULL,
            change TEXT NOT NULL,
            who TEXT NOT NULL,
            device TEXT NOT NULL,
            token TEXT UNIQUE,
            undoes INTEGER REFERENCES event(id)
        ) STRICT""")
    db.execute("CREATE INDEX event_code ON event(code)")
    db.execute("CREATE INDEX event_undoes ON event(undoes) WHERE undoes IS NOT NULL")
    db.execute("""
        CREATE TABLE touched (
            subject TEXT NOT NULL,
            event INTEGER NOT NULL REFERENCES event(id),
            PRIMARY KEY (subject, event)
        ) STRICT, WITHOUT ROWID""")


def _create_stock(db: Database) -> None:
    """Cloths and their cuts."""
    db.execute("""
        CREATE TABLE cloth (
            subject TEXT PRIMARY KEY,
            name TEXT NOT NULL,
            construction TEXT NOT NULL,
            mass_gsm REAL,
            colour TEXT,
            fibres TEXT NOT NULL,
            record TEXT NOT NULL
        ) STRICT""")
    db.execute("""
        CREATE TABLE cut (
            code TEXT PRIMARY KEY,
            cloth TEXT NOT NULL REFERENCES cloth(subject) DEFERRABLE INITIALLY DEFERRED,
            length_mm REAL NOT NULL CHECK (length_mm > 0),
            width_mm REAL NOT NULL CHECK (width_mm > 0),
            area_mm2 REAL NOT NULL CHECK (area_mm2 > 0),
            outline TEXT NOT NULL,
            washed INTEGER NOT NULL,
            place TEXT,
            acquired TEXT,
            keep_for TEXT,
            came_from TEXT,
            gone TEXT,
            holds TEXT NOT NULL
        ) STRICT""")
    db.execute("CREATE INDEX cut_place ON cut(place)")
    db.execute("CREATE INDEX cut_cloth ON cut(cloth)")


def _create_bins(db: Database) -> None:
    """Bins."""
    db.execute("""
        CREATE TABLE bin (
            code TEXT PRIMARY KEY,
            kind TEXT NOT NULL,
            name TEXT NOT NULL,
            size_mm REAL,
            colour TEXT,
            notion TEXT NOT NULL,
            amount REAL NOT NULL CHECK (amount >= 0),
            place TEXT,
            gone TEXT,
            holds TEXT NOT NULL
        ) STRICT""")
    db.execute("CREATE INDEX bin_place ON bin(place)")


def _create_records(db: Database) -> None:
    """Everything else, and the words by which things are found."""
    db.execute("""
        CREATE TABLE record (
            subject TEXT PRIMARY KEY,
            noun TEXT NOT NULL,
            record TEXT NOT NULL
        ) STRICT""")
    db.execute("CREATE INDEX record_noun ON record(noun)")
    db.execute("""
        CREATE TABLE findable (
            id INTEGER PRIMARY KEY,
            subject TEXT NOT NULL UNIQUE,
            text TEXT NOT NULL
        ) STRICT""")
    db.table("findable").enable_fts(
        ["text"], create_triggers=True, tokenize="unicode61 remove_diacritics 2"
    )


def migrate(db: Database, copies: Path, steps: Migrations = STEPS) -> None:
    """Bring the file to the newest form, keeping a copy of it as it was.

    StoreTooNew when it was written by a later version; when a step fails, nothing
    of it stays behind.
    """
    names = [step.name for step in steps.pending(Database(memory=True, execute_plugins=False))]
    applied = _applied(db, steps)
    unknown = [name for name in applied if name not in names]
    if unknown:
        raise StoreTooNew("store_too_new", step=unknown[-1])
    if len(applied) == len(names):
        return
    if applied:
        copy_file(db, copies / f"before-{names[len(applied)]}-{_moment()}.db")
    db.enable_wal()
    db.execute("PRAGMA foreign_keys = OFF")  # cannot be changed inside a transaction
    try:
        with writing(db):
            steps.apply(db)
            if db.execute("PRAGMA foreign_key_check").fetchall():
                raise Unavailable("not_changed_over")
    except (ValueError, TypeError) as error:
        raise Unavailable("record_damaged", path="", reason=str(error)) from error
    finally:
        db.execute("PRAGMA foreign_keys = ON")


def copy_file(db: Database, to: Path) -> Path:
    """A consistent copy of the whole database, also while others write."""
    private_folder(to.parent)
    target = sqlite3.connect(private_file(to))
    try:
        db.conn.backup(target)
    finally:
        target.close()
    return to


def _applied(db: Database, steps: Migrations) -> list[str]:
    try:
        return [step.name for step in steps.applied(db)]
    except sqlite3.DatabaseError as error:
        raise told(error) from error


def _moment() -> str:
    return datetime.now(UTC).strftime("%Y%m%d-%H%M%S")
