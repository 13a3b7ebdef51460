"""Connections to the SQLite file, one a thread, and the write lock."""

from __future__ import annotations

import os
import sqlite3
import threading
import weakref
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from stash.store.database import Database
from stash.store.folder import private_file
from stash.store.trouble import told

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

    def __del__(self) -> None:
        self.db.close()


def connect(path: Path) -> Database:
    """A connection with foreign keys on and every commit flushed to the disk.

    Where nothing can be written, on a full disk or in a folder of somebody else's, the
    record is opened for reading.
    """
    trouble: sqlite3.Error | None = None
    for address in _addresses(path):
        try:
            return _opened(address)
        except sqlite3.OperationalError as error:
            trouble = trouble or error
        except sqlite3.Error as error:
            raise told(error, path) from error
    assert trouble is not None
    raise told(trouble, path) from trouble


def _addresses(path: Path) -> Iterator[str]:
    plain = path.resolve().as_uri()
    if not path.exists() or os.access(path, os.W_OK):
        if not path.exists() and os.access(path.parent, os.W_OK):
            private_file(path)
        yield plain
    yield f"{plain}?mode=ro"
    log = path.with_name(f"{path.name}-wal")
    if not log.exists() or log.stat().st_size == 0:  # else it would not see the newest entries
        yield f"{plain}?immutable=1"


def _opened(address: str) -> Database:
    connection = sqlite3.connect(address, timeout=BUSY_S, check_same_thread=False, uri=True)
    try:
        db = Database(connection, strict=True, execute_plugins=False)
        db.execute("PRAGMA foreign_keys = ON")
        db.execute("PRAGMA synchronous = FULL")
        db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except BaseException:
        connection.close()
        raise
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
    except sqlite3.DatabaseError as error:
        db.rollback()
        if isinstance(error, sqlite3.IntegrityError):
            raise
        raise told(error, _file_of(db)) from error


def _file_of(db: Database) -> Path:
    return Path(db.execute("PRAGMA database_list").fetchone()[2])
