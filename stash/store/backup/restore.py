"""A record brought back from a backup or a copy: whole, or nothing has changed."""

from __future__ import annotations

import shutil
import sqlite3
from pathlib import Path

from stash.errors import Conflict, InvalidInput, StashError, Unavailable
from stash.fact import Fact
from stash.ledger import Event
from stash.store.backup import swap
from stash.store.backup.findings import Findings
from stash.store.backup.source import DAMAGE, Source, StoredPhoto, damaged, opened, sound_events
from stash.store.backup.verify import ledger_faults, recorded_photos
from stash.store.folder import DataFolder, write_private
from stash.store.opening import open_stash

SPARE_BYTES = 20_000_000


def restore(path: Path, place: Path, *, replace: bool = False) -> Findings:
    """Bring the record in ``path`` back into the data folder ``place``.

    InvalidInput when the file or its ledger is damaged, Conflict when there is a record
    already (``replace`` puts that aside), Unavailable when the disk cannot take it: then
    nothing was changed, and it may be run again. A damaged photograph is left out and
    told in the report, since the ledger matters more.
    """
    with opened(path):
        pass  # a file that is none is said to be none, whatever lies in the folder
    folder = DataFolder(place)
    folder.prepare()
    with swap.alone(folder):
        if swap.is_ready(folder):
            swap.carry_through(folder)
        if not replace and holds_record(folder):
            raise Conflict("record_here", path=str(place))
        with opened(path) as source:
            _refuse_small_disk(folder, source)
            events = list(sound_events(path, source))
            if faults := ledger_faults(events):
                raise InvalidInput("backup_unsound", file=path.name, because=faults[0])
            return bring_in(folder, events, source)


def bring_in(folder: DataFolder, events: list[Event], source: Source) -> Findings:
    """Make a record of these events ready beside the present one, then let it take its place."""
    swap.clear(folder)
    try:
        faults, photos = _make_ready(folder, events, source)
        swap.mark_ready(folder)
    except (OSError, sqlite3.Error) as error:
        swap.clear(folder)
        raise Unavailable("restore_disk", path=str(folder.path), reason=_reason(error)) from error
    except BaseException:
        swap.clear(folder)
        raise
    swap.carry_through(folder)
    return Findings(events=len(events), photos=photos, faults=tuple(faults))


def holds_record(folder: DataFolder) -> bool:
    """Whether anything is recorded there that must not be lost; a damaged file may hold some."""
    if not folder.database.exists() or folder.database.stat().st_size == 0:
        return False
    try:
        with open_stash(folder.path) as stash:
            return bool(stash.ledger.latest(1))
    except StashError:
        return True


def _make_ready(
    folder: DataFolder, events: list[Event], source: Source
) -> tuple[list[Fact], int]:
    ready = swap.staging(folder)
    ready.prepare()
    with open_stash(ready.path) as stash:
        try:
            stash.ledger.keep(events)
        except DAMAGE as error:
            if isinstance(error, sqlite3.Error):
                raise
            raise damaged(Path("events")) from error
        stash.settle()
    faults: list[Fact] = []
    there, taken = source.photos(), 0
    for photo in there:
        if (content := source.content(photo)) is None:
            faults.append(photo.fault("damaged"))
            continue
        write_private(ready.photos / photo.code / photo.name, content)
        taken += 1
    here = {StoredPhoto(p.parent.name, p.name) for p in folder.photos.glob("*/*.jpg")}
    known = here.union(there)
    faults += [p.fault("missing")
               for p in recorded_photos(events) if p not in known]
    return faults, taken


def _refuse_small_disk(folder: DataFolder, source: Source) -> None:
    needed = source.unpacked_bytes + SPARE_BYTES
    free = shutil.disk_usage(folder.path).free
    if free < needed:
        raise Unavailable("disk_too_small", path=str(folder.path), needed_mb=needed / 1e6,
                          free_mb=free / 1e6)


def _reason(error: OSError | sqlite3.Error) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)
