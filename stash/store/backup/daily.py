"""A copy of the record for each of the last days it was opened, made without being asked.

The photographs lie beside the copies once: linked where the disk can link, so that they
take no room twice, else copied.
"""

from __future__ import annotations

import os
import re
import shutil
import sqlite3
import threading
from contextlib import suppress
from datetime import date
from pathlib import Path

from stash.store.database import Database
from stash.store.folder import DataFolder, private_file, private_folder
from stash.store.migrations import copy_file

DAYS = 10
FORM = re.compile(r"day-(\d{4}-\d\d-\d\d)\.db")


def keep_copy(db: Database, folder: DataFolder, today: date) -> None:
    """Copy the record once a day, before the day's first change; forget the oldest copies.

    Nothing is copied while there is nothing on record yet. A folder that cannot take a
    copy does not keep anyone from working.
    """
    newest = folder.copies / f"day-{today.isoformat()}.db"
    if newest.exists() or not db.execute("SELECT 1 FROM event LIMIT 1").fetchone():
        return
    # Pages are answered by several threads: each that opens the record first makes its own.
    draft = folder.copies / f"{newest.name}.{os.getpid()}-{threading.get_ident()}.part"
    try:
        copy_file(db, draft).replace(newest)
        for old in copies(folder.copies)[DAYS:]:
            old.unlink()
        keep_photos(folder.photos, folder.copies / "photos")
    except (OSError, sqlite3.Error):
        with suppress(OSError):
            draft.unlink()


def copies(place: Path) -> list[Path]:
    """The copies there are, newest first."""
    found = (path for path in place.glob("day-*.db") if FORM.fullmatch(path.name))
    return sorted(found, reverse=True)


def keep_photos(photos: Path, kept: Path, stop: threading.Event | None = None) -> None:
    """Keep each photograph beside the copies too; one that is kept already is left alone."""
    for photo in photos.glob("*/*.jpg"):
        if stop is not None and stop.is_set():
            return
        target = kept / photo.parent.name / photo.name
        if not target.exists():
            private_folder(target.parent)
            _link(photo, target)


def _link(photo: Path, target: Path) -> None:
    try:
        os.link(photo, target)
    except FileExistsError:
        return
    except OSError:  # a disk without links, or another disk
        draft = target.with_suffix(f".{os.getpid()}-{threading.get_ident()}.part")
        shutil.copyfile(photo, private_file(draft))
        draft.replace(target)
