"""Connections to the SQLite file, one a thread, and the write lock."""

from __future__ import annotations

import sqlite3
import threading
import weakref
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database

from stash.errors import Unavailable

BUSY_S = 30.0
"""How long a writer waits for another before it gives up."""


class Connections:
    """Opens one connection for each thread that asks, and closes them all together."""

    def __init__(self, path: Path):
        self.path = path
        self._local = threading.local()
        self._open: weakref.WeakSet[_Holder] = weakref.WeakSet()
        self._guard = threading.Lock()

    def here(self) -> Database:
        """The connection of the calling thread."""
        holder = getattr(self._local, "holder", None)
        if holder is None:
            holder = self._local.holder = _Holder(connect(self.path))
            with self._guard:
                self._open.add(holder)
        return holder.db

    def close(self) -> None:
        """Close every connection, also those of other threads."""
        with self._guard:
            for holder in list(self._open):
                holder.db.close()
        self._local = threading.local()


class _Holder:
    """Closes its connection when the thread that owned it has ended."""

    def __init__(self, db: Database):
        self.db = db

    def __del__(self):
        self.db.close()


def connect(path: Path) -> Database:
    """A connection with foreign keys on and every commit flushed to the disk."""
    try:
        connection = sqlite3.connect(path, timeout=BUSY_S, check_same_thread=False)
        db = Database(connection, strict=True, execute_plugins=False)
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("PRAGMA synchronous = FULL")
    except sqlite3.Error as error:
        raise Unavailable(
            f"The stash in {path} cannot be opened ({error}). If the file was damaged, "
            "bring back a copy of it."
        ) from error
    return db


@contextmanager
def writing(db: Database) -> Iterator[Database]:
    """A transaction that takes the write lock first, so read-then-write cannot fail half way.

    Inside another one it is a part of that: it is undone alone when it fails.
    """
    if db.conn.in_transaction:
        with db.atomic():
            yield db
        return
    try:
        db.execute("BEGIN IMMEDIATE")
        try:
            yield db
        except BaseException:
            db.rollback()
            raise
        db.commit()
    except sqlite3.OperationalError as error:
        db.rollback()
        raise Unavailable(
            f"The stash could not be written ({error}), so nothing was recorded. Please see "
            "whether the disk is full or write-protected, then try again."
        ) from error
