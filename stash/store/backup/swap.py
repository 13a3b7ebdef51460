"""A record made ready in a folder of its own takes the place of the present one.

Until the folder is marked ready nothing of the present record has changed; from then on
the change is carried through, also by whoever opens the stash after a power cut. The
record that had the place before is kept.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path

from stash.errors import Conflict, StashError, Unavailable
from stash.store.folder import DataFolder, private_folder
from stash.store.trouble import told

READY = "ready"


def staging(folder: DataFolder) -> DataFolder:
    """Where a record is made ready: within the data folder, so that it is on the same disk."""
    return DataFolder(folder.path / "restoring")


def finish(folder: DataFolder) -> None:
    """Carry through what somebody began who was interrupted."""
    if is_ready(folder):
        with alone(folder, wait_s=30):
            if is_ready(folder):
                carry_through(folder)


@contextmanager
def alone(folder: DataFolder, wait_s: float = 0) -> Iterator[None]:
    """The only one who brings back a record here; Conflict when somebody else does.

    The lock is SQLite's own, so that it falls with whoever held it, on every system.
    """
    try:
        lock = sqlite3.connect(
            folder.path / "restoring.lock", timeout=wait_s, isolation_level=None)
    except sqlite3.OperationalError as error:
        raise _not_alone(error, folder) from error
    try:
        try:
            lock.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError as error:
            raise _not_alone(error, folder) from error
        yield
    finally:
        lock.close()
    with suppress(OSError):
        (folder.path / "restoring.lock").unlink()


def _not_alone(error: sqlite3.OperationalError, folder: DataFolder) -> StashError:
    if (error.sqlite_errorname or "").startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return Conflict("restore_running", path=str(folder.path))
    known = told(error, folder.database)
    if known.fact.kind == "disk_full":
        return known
    return Unavailable("folder_unwritable", path=str(folder.path), reason=str(error))


def clear(folder: DataFolder) -> None:
    """Forget what an interrupted attempt left behind."""
    if staging(folder).path.exists():
        shutil.rmtree(staging(folder).path)


def is_ready(folder: DataFolder) -> bool:
    """Whether a record waits to be swapped in."""
    return (staging(folder).path / READY).exists()


def mark_ready(folder: DataFolder) -> None:
    """From here on the record made ready is the record."""
    place = staging(folder).path
    descriptor = os.open(place / READY, os.O_WRONLY | os.O_CREAT, 0o600)
    os.fsync(descriptor)
    os.close(descriptor)
    flush(place)


def carry_through(folder: DataFolder) -> None:
    """Photographs first, each in its place, and the database last; may be done again."""
    ready = staging(folder)
    try:
        for photo in ready.photos.glob("*/*.jpg"):
            target = folder.photos / photo.parent.name / photo.name
            private_folder(target.parent)
            photo.replace(target)
        if ready.database.exists():
            _put_aside(folder)
            ready.database.replace(folder.database)
        flush(folder.path)
        shutil.rmtree(ready.path)
    except OSError as error:
        raise Unavailable("restore_waits", path=str(folder.path),
                          reason=error.strerror or str(error)) from error


def _put_aside(folder: DataFolder) -> None:
    files = [f for end in ("", "-wal", "-shm")
             if (f := folder.database.with_name(folder.database.name + end)).exists()]
    if not files:
        return
    moment = datetime.now(UTC).strftime("%Y%m%d-%H%M%S-%f")
    aside = folder.copies / f"replaced-{moment}"
    private_folder(aside)
    for file in files:
        file.replace(aside / file.name)


def flush(place: Path) -> None:
    """Have the disk remember what lies in a folder, where the system offers that."""
    with suppress(OSError):
        descriptor = os.open(place, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
