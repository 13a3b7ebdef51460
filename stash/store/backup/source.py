"""Where a record may be brought back from: a backup file, or a copy of the database.

Nothing in such a file is trusted: sizes are looked at before anything is unpacked, names
are those of photographs or are left alone, and what is unsound is told as a fact.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import sqlite3
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from stash.errors import InvalidInput, StashError, StoreTooNew, Unavailable
from stash.fact import Fact, fact
from stash.ledger import Event, Kind
from stash.model.exact import from_plain
from stash.store.backup.backup_file import CONTENTS, FORM, LEDGER, PHOTO, VERSION
from stash.store.folder import DataFolder
from stash.store.opening import open_stash
from stash.store.piece_photos import PIECES

SQLITE = b"SQLite format 3\0"
LONGEST_LINE_BYTES = 50_000_000
LARGEST_PHOTO_BYTES = 40_000_000
MOST_UNPACKED = 60
"""A ledger packs to a tenth or so of its size; a file that claims much more is a trap."""
SMALL_BYTES = 5_000_000
DAMAGE = (
    zipfile.BadZipFile, zlib.error, ValueError, KeyError, TypeError, EOFError, RuntimeError,
    AttributeError, OverflowError, NotImplementedError, sqlite3.Error,
)
"""Whatever reading a spoilt zip, spoilt JSON or a spoilt database may raise."""


@dataclass(frozen=True)
class StoredPhoto:
    """One picture of a backup, by the code it belongs to and its file's name."""

    code: str
    name: str

    @property
    def id(self) -> str:
        """The photograph's number, which is a digest of the large picture."""
        return self.name.removesuffix(".jpg").removesuffix("-small")

    def fault(self, what: str) -> Fact:
        """That it is "missing" or "damaged"."""
        if self.code == PIECES:
            kind = "piece_photo_missing" if what == "missing" else "piece_photo_damaged"
            return fact(kind, photo=self.name)
        kind = "photo_missing" if what == "missing" else "photo_damaged"
        return fact(kind, code=self.code, photo=self.name)

    def fits(self, content: bytes) -> bool:
        """Whether these bytes are that picture; a small one carries no digest."""
        small = self.name.endswith("-small.jpg")
        return small or hashlib.sha256(content).hexdigest()[:20] == self.id


class Source(Protocol):
    """What a record is brought back from; reading raises InvalidInput where it is damaged."""

    @property
    def unpacked_bytes(self) -> int:
        """About how much room it takes once brought back."""

    def events(self) -> Iterator[Event]:
        """Every event, oldest first."""

    def photos(self) -> list[StoredPhoto]:
        """Every picture there is."""

    def content(self, photo: StoredPhoto) -> bytes | None:
        """One picture; None when it is damaged."""


@contextmanager
def opened(path: Path) -> Iterator[Source]:
    """The source in a file; InvalidInput when it is none, Unavailable when it cannot be read."""
    try:
        with path.open("rb") as file:
            copied = file.read(len(SQLITE)) == SQLITE
    except FileNotFoundError as error:
        raise InvalidInput("no_such_file", path=str(path)) from error
    except OSError as error:
        raise Unavailable(
            "cannot_be_read", path=str(path), reason=error.strerror or str(error)) from error
    with _copy(path) if copied else _backup(path) as source:
        yield source


@contextmanager
def _backup(path: Path) -> Iterator[Source]:
    try:
        with zipfile.ZipFile(path) as file:
            yield _Backup(path, file)
    except DAMAGE as error:
        raise damaged(path) from error


class _Backup:
    """A file that :mod:`backup_file` wrote."""

    def __init__(self, path: Path, file: zipfile.ZipFile):
        self.path, self.file = path, file
        self._refuse_traps()
        self.contents = self._contents()

    @property
    def unpacked_bytes(self) -> int:
        return 3 * self.file.getinfo(LEDGER).file_size + sum(
            info.file_size for info in self.file.infolist() if PHOTO.fullmatch(info.filename))

    def _refuse_traps(self) -> None:
        """No part of it unpacks to much more than it is, nor do all of them together."""
        parts = [(i.file_size, i.compress_size) for i in self.file.infolist()]
        parts.append((sum(large for large, _ in parts), self.path.stat().st_size))
        for large, small in parts:
            if large > SMALL_BYTES + MOST_UNPACKED * small:
                raise InvalidInput(
                    "unpacks_too_large", file=self.path.name, size_mb=large / 1e6)

    def _contents(self) -> dict[str, object]:
        if self.file.getinfo(CONTENTS).file_size > 10_000:
            raise damaged(self.path)
        contents = json.loads(self.file.read(CONTENTS))
        if contents["form"] != FORM:
            raise damaged(self.path)
        if contents["version"] > VERSION:
            raise StoreTooNew("backup_too_new", file=self.path.name)
        return dict(contents)

    def events(self) -> Iterator[Event]:
        digest, count = hashlib.sha256(), 0
        with self.file.open(LEDGER) as ledger:
            while line := ledger.readline(LONGEST_LINE_BYTES):
                digest.update(line)
                event = from_plain(Event, json.loads(line))
                if not isinstance(event.change, dict) or event.kind not in Kind:
                    raise damaged(self.path)
                count += 1
                yield event
        if (count, digest.hexdigest()) != (self.contents["events"], self.contents["sha256"]):
            raise damaged(self.path)

    def photos(self) -> list[StoredPhoto]:
        found = (PHOTO.fullmatch(name) for name in dict.fromkeys(self.file.namelist()))
        return [StoredPhoto(f[1], f[0].rpartition("/")[2]) for f in found if f]

    def content(self, photo: StoredPhoto) -> bytes | None:
        name = f"photos/{photo.code}/{photo.name}"
        try:
            if self.file.getinfo(name).file_size > LARGEST_PHOTO_BYTES:
                return None
            content = self.file.read(name)
        except (*DAMAGE, OSError):
            return None
        return content if photo.fits(content) else None


@contextmanager
def _copy(path: Path) -> Iterator[Source]:
    """A copied database, brought to the newest form in a place of its own."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as room:
        folder = DataFolder(Path(room))
        try:
            shutil.copyfile(path, folder.database)
        except OSError as error:
            raise Unavailable("cannot_be_written", path=room,
                              reason=error.strerror or str(error)) from error
        try:
            with open_stash(folder.path) as stash:
                yield _Copy(path, list(stash.ledger.events()))
        except StoreTooNew:
            raise
        except (Unavailable, *DAMAGE) as error:
            raise damaged(path) from error


class _Copy:
    """A copy of the database, with the photographs that lie beside it."""

    def __init__(self, path: Path, events: list[Event]):
        self.path, self._events = path, events

    @property
    def unpacked_bytes(self) -> int:
        return 2 * self.path.stat().st_size

    def events(self) -> Iterator[Event]:
        yield from self._events

    def photos(self) -> list[StoredPhoto]:
        pool = self.path.parent / "photos"
        found = (PHOTO.fullmatch(f"photos/{p.parent.name}/{p.name}") for p in pool.glob("*/*.jpg"))
        return [StoredPhoto(f[1], f[0].rpartition("/")[2]) for f in found if f]

    def content(self, photo: StoredPhoto) -> bytes | None:
        try:
            content = (self.path.parent / "photos" / photo.code / photo.name).read_bytes()
        except OSError:
            return None
        return content if photo.fits(content) else None


def damaged(path: Path) -> InvalidInput:
    """The file is no sound backup; nothing is taken from such a one."""
    return InvalidInput("backup_damaged", file=path.name)


def sound_events(path: Path, source: Source) -> Iterator[Event]:
    """The events of a source, with whatever reading them raises told as a damaged file."""
    try:
        yield from source.events()
    except StashError:
        raise
    except DAMAGE as error:
        raise damaged(path) from error
    except OSError as error:
        raise Unavailable(
            "cannot_be_read", path=str(path), reason=error.strerror or str(error)) from error
