"""Whether the record as it lies there is sound, and if not, everything that is wrong with it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from pathlib import Path

from stash.errors import StashError, StoreTooNew, Unavailable
from stash.fact import Fact, fact
from stash.ledger import Event, FoldedState, fold
from stash.store.backup.findings import Findings
from stash.store.backup.source import StoredPhoto
from stash.store.backup.verify import ledger_faults, recorded_photos
from stash.store.folder import DataFolder
from stash.store.opening import Stash, open_stash
from stash.store.piece_photos import PIECES

MOST_NAMED = 200
MOST_LOOKED_THROUGH = 20_000
"""Events that are read within a second or so."""


def check(place: Path) -> Findings:
    """Read everything, change nothing. StoreTooNew when a later version wrote it."""
    folder = DataFolder(place)
    if folder.lost:
        return Findings(faults=(fact("record_missing", path=str(folder.database)),))
    try:
        with open_stash(place, keeping=False) as stash:
            return _check(stash)
    except StoreTooNew:
        raise
    except StashError as error:
        return Findings(faults=(error.fact,))
    except (sqlite3.Error, ValueError, TypeError, LookupError) as error:
        return Findings(faults=(fact("file_damaged", reason=str(error)[:200]),))


def trouble_behind(stash: Stash) -> Unavailable | None:
    """What an unforeseen failure may come of: a ledger that is not sound.

    Looked at only where that is quick; None when it is sound, or too long to look through.
    """
    newest = stash.ledger.newest()
    if newest > MOST_LOOKED_THROUGH:
        return None
    events, faults = _readable(stash)
    faults += ledger_faults(events, newest)
    return Unavailable("record_unsound", because=faults[0]) if faults else None


def _check(stash: Stash) -> Findings:
    found = stash.ledger.db.execute("PRAGMA integrity_check(1)").fetchone()[0]
    if found != "ok":
        return Findings(faults=(fact("file_damaged", reason=str(found)[:200]),))
    subjects = 0
    with stash.reading():
        events, faults = _readable(stash)
        faults += ledger_faults(events, stash.ledger.newest())
        if not faults:
            states = fold(events)
            subjects = len(states)
            faults += [*_tables(stash, states), *_touched(stash, events)]
    faults += photo_faults(stash.folder, events)
    photos = recorded_photos(events)
    return Findings(events=len(events), photos=len(photos), subjects=subjects,
                  faults=tuple(faults[:MOST_NAMED]))


def _readable(stash: Stash) -> tuple[list[Event], list[Fact]]:
    events: list[Event] = []
    faults: list[Fact] = []
    for number, event in stash.ledger.rows():
        if event is None:
            faults.append(fact("event_altered", first=number, last=number))
        else:
            events.append(event)
    return events, faults


def _tables(stash: Stash, states: Mapping[str, FoldedState]) -> Iterator[Fact]:
    try:
        kept = stash.ledger.cached()
    except (ValueError, TypeError, LookupError, AttributeError):
        yield fact("tables_unreadable")
        return
    for subject in sorted(kept.keys() | states.keys()):
        if kept.get(subject) != states.get(subject):
            yield fact("table_disagrees", subject=subject)


def _touched(stash: Stash, events: list[Event]) -> Iterator[Fact]:
    kept = set(stash.ledger.db.execute("SELECT subject, event FROM touched").fetchall())
    true = {(subject, event.id) for event in events for subject in event.change}
    for number in sorted({event for _, event in kept ^ true}):
        yield fact("touched_disagrees", event=number)


def photo_faults(folder: DataFolder, events: list[Event]) -> list[Fact]:
    """Photographs on record whose file is gone or is not what was kept."""
    faults: list[Fact] = []
    for photo in recorded_photos(events):
        path = folder.photos / photo.code / photo.name
        try:
            sound = photo.fits(path.read_bytes())
        except FileNotFoundError:
            faults.append(photo.fault("missing"))
            continue
        except OSError as error:
            raise Unavailable("cannot_be_read", path=str(path),
                              reason=error.strerror or str(error)) from error
        if not sound:
            faults.append(photo.fault("damaged"))
        if photo.code == PIECES:
            continue  # what lies under a piece is shown in one size only
        small = StoredPhoto(photo.code, f"{photo.id}-small.jpg")
        if not (folder.photos / small.code / small.name).exists():
            faults.append(small.fault("missing"))
    return faults


