"""What SQLite says went wrong, told as what a person can do about it."""

from __future__ import annotations

import errno
import os
import shutil
import sqlite3
from contextlib import suppress
from pathlib import Path

from stash.errors import Unavailable

DAMAGED = ("SQLITE_CORRUPT", "SQLITE_NOTADB")
FULL = ("SQLITE_FULL", "SQLITE_IOERR")
LEAST_FREE_BYTES = 65_536
"""With less, SQLite has no room for the files that it needs to write at all."""


def trouble_of(error: BaseException) -> Unavailable | None:
    """What a person can do about an error that SQLite raised while reading; None for others."""
    if not isinstance(error, sqlite3.DatabaseError):
        return None
    trouble = told(error)
    return None if trouble.fact.kind == "record_unusable" else trouble


def told(error: sqlite3.Error, path: Path | None = None) -> Unavailable:
    """Damaged, full, busy, read-only, or whatever else keeps the record from being used.

    Every one of them means that nothing was recorded by the attempt.
    """
    name = getattr(error, "sqlite_errorname", None) or ""
    values = {"path": str(path) if path else "", "reason": str(error)}
    if name.startswith(DAMAGED) or "malformed" in str(error):
        return Unavailable("record_damaged", **values)
    if name.startswith(FULL):
        return Unavailable("disk_full", **values)
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return Unavailable("record_busy", **values)
    if name.startswith("SQLITE_READONLY"):
        if path is not None and _no_room(path):  # for which it was opened for reading only
            return Unavailable(
                "disk_full", path=str(path), reason=os.strerror(errno.ENOSPC))
        return Unavailable("record_read_only", **values)
    return Unavailable("record_unusable", **values)


def _no_room(path: Path) -> bool:
    with suppress(OSError):
        return shutil.disk_usage(path.parent).free < LEAST_FREE_BYTES
    return False
