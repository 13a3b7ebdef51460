"""A copy of the record for each of the last days it was opened, made without being asked."""

from __future__ import annotations

import os
import re
import sqlite3
import threading
from contextlib import suppress
from datetime import date
from pathlib import Path

from sqlite_utils import Database

from stash.store.migrations import copy_file

DAYS = 10
FORM = re.compile(r"day-(\d{4}-\d\d-\d\d)\.db")


def keep_copy(db: Database, folder: Path, today: date) -> None:
    """Copy the record once a day, before the day's first change; forget the oldest copies.

    Nothing is copied while there is nothing on record yet. A folder that cannot take a
    copy does not keep anyone from working.
    """
    newest = folder / f"day-{today.isoformat()}.db"
    if newest.exists() or not db.execute("SELECT 1 FROM event LIMIT 1").fetchone():
        return
    # Pages are answered by several threads: each that opens the record first makes its own.
    draft = folder / f"{newest.name}.{os.getpid()}-{threading.get_ident()}.part"
    try:
        copy_file(db, draft).replace(newest)
        for old in copies(folder)[DAYS:]:
            old.unlink()
    except (OSError, sqlite3.Error):
        with suppress(OSError):
            draft.unlink()


def copies(folder: Path) -> list[Path]:
    """The copies there are, newest first."""
    found = (path for path in folder.glob("day-*.db") if FORM.fullmatch(path.name))
    return sorted(found, reverse=True)
