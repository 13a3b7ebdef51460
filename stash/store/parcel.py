"""The whole stash in one file, for keeping elsewhere or moving to another computer.

A zip with ``contents.json`` (form, version, number and checksum of the events),
``ledger.jsonl`` (one event a line, oldest first) and the photographs. Everything
else is worked out again from the ledger, so nothing can disagree with it.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import sqlite3
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from stash.errors import Conflict, InvalidInput, StashError, StoreTooNew, Unavailable
from stash.ledger import Event, Kind
from stash.model.exact import from_plain, to_plain
from stash.store.folder import DataFolder
from stash.store.opening import Stash, open_stash

FORM = "lengthwise record"
VERSION = 1
LARGEST_LEDGER_BYTES = 4_000_000_000
DAMAGE = (
    OSError, sqlite3.Error, zipfile.BadZipFile, zlib.error, ValueError, KeyError, TypeError,
    EOFError, RuntimeError, AttributeError, OverflowError,
)
"""Whatever reading a spoilt zip or spoilt JSON may raise."""
SQLITE = b"SQLite format 3\0"
PHOTO = re.compile(r"photos/([2-9A-HJ-KMNP-Z]{6})/([0-9a-f]{20}(?:-small)?\.jpg)")


def pack(stash: Stash, path: Path) -> int:
    """Write everything to ``path``; the number of events. An older file there is replaced."""
    draft = path.with_name(f"{path.name}.{os.getpid()}.part")
    try:
        with zipfile.ZipFile(draft, "w", zipfile.ZIP_DEFLATED) as parcel:
            count = _write(stash, parcel)
        draft.replace(path)
    except OSError as error:
        raise Unavailable(f"{path} cannot be written ({error.strerror or error}).") from error
    finally:
        draft.unlink(missing_ok=True)
    return count


@dataclass(frozen=True)
class Unpacked:
    """What came out of a file; ``photos_lost`` were damaged and are left out."""

    events: int
    photos: int
    photos_lost: int


def unpack(stash: Stash, path: Path) -> Unpacked:
    """Bring a file written by :func:`pack` into an empty stash.

    A daily copy of the record (without photographs) serves as well. InvalidInput when
    the file is not one or its ledger is damaged: then nothing was taken over. A damaged
    photograph is left out, since the ledger matters more.
    """
    try:
        with path.open("rb") as file:
            copied = file.read(len(SQLITE)) == SQLITE
        if copied:
            return _unpack_copy(stash, path)
        with zipfile.ZipFile(path) as parcel:
            contents = _contents(parcel)
            with stash.together():
                stash.ledger.keep(_events(parcel, contents))
            photos, lost = _unpack_photos(parcel, stash.folder.photos)
            return Unpacked(contents["events"], photos, lost)
    except FileNotFoundError as error:
        raise InvalidInput(f"There is no file {path}.") from error
    except (Conflict, StoreTooNew):
        raise
    except (StashError, *DAMAGE) as error:
        raise _damaged(path) from error


def _unpack_copy(stash: Stash, path: Path) -> Unpacked:
    """The ledger of a copied database, brought to the newest form in a place of its own."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        shutil.copyfile(path, DataFolder(Path(folder)).database)
        with open_stash(Path(folder)) as copy:
            events = list(copy.ledger.events())
    stash.ledger.keep(events)
    return Unpacked(len(events), 0, 0)


def _write(stash: Stash, parcel: zipfile.ZipFile) -> int:
    digest, count = hashlib.sha256(), 0
    with parcel.open("ledger.jsonl", "w", force_zip64=True) as file:
        for event in stash.ledger.events():
            line = json.dumps(_line(event), ensure_ascii=False).encode() + b"\n"
            digest.update(line)
            file.write(line)
            count += 1
    contents = {"form": FORM, "version": VERSION, "events": count, "sha256": digest.hexdigest()}
    parcel.writestr("contents.json", json.dumps(contents, indent=1))
    for photo in sorted(stash.folder.photos.glob("*/*.jpg")):
        name = f"photos/{photo.parent.name}/{photo.name}"
        parcel.write(photo, name, compress_type=zipfile.ZIP_STORED)
    return count


def _line(event: Event) -> dict:
    line = to_plain(event)
    del line["stands"]  # worked out on reading
    return line


def _contents(parcel: zipfile.ZipFile) -> dict:
    if parcel.getinfo("contents.json").file_size > 10_000:
        raise ValueError("contents too large")
    contents = json.loads(parcel.read("contents.json"))
    if contents["form"] != FORM:
        raise ValueError("another form")
    if contents["version"] > VERSION:
        raise StoreTooNew("This file was written by a newer Lengthwise; please update this one.")
    if parcel.getinfo("ledger.jsonl").file_size > LARGEST_LEDGER_BYTES:
        raise ValueError("ledger too large")
    return contents


def _events(parcel: zipfile.ZipFile, contents: dict) -> Iterator[Event]:
    digest, count = hashlib.sha256(), 0
    with parcel.open("ledger.jsonl") as file:
        for line in file:
            digest.update(line)
            event = from_plain(Event, json.loads(line))
            if not isinstance(event.change, dict) or event.kind not in Kind:
                raise ValueError("not an event")
            count += 1
            yield event
    if count != contents["events"] or digest.hexdigest() != contents["sha256"]:
        raise ValueError("checksum")


def _unpack_photos(parcel: zipfile.ZipFile, photos: Path) -> tuple[int, int]:
    """How many were unpacked, and how many could not be read."""
    taken = lost = 0
    for name in parcel.namelist():
        if not (found := PHOTO.fullmatch(name)):
            continue
        try:
            content = parcel.read(name)
        except DAMAGE:
            lost += 1
            continue
        target = photos / found[1] / found[2]
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
        taken += 1
    return taken, lost


def _damaged(path: Path) -> InvalidInput:
    return InvalidInput(
        f"{path.name} is not a whole file written by “keep copy”, nor a copy of a stash; "
        "nothing was taken from it."
    )
