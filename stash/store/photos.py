"""Photographs of cuts and bins: checked, turned upright, made smaller, and without a location."""

from __future__ import annotations

import hashlib
import io
import json
import os
import threading
import warnings
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageOps

from stash.errors import InvalidInput, NotFound, Unavailable
from stash.ledger import Entry, Event, Kind
from stash.model import Code
from stash.store.folder import DataFolder, write_private
from stash.store.ledger import Ledger

LARGEST_BYTES = 40_000_000
MOST_PIXELS = 120_000_000
SIDE_PX = 1600
SMALL_PX = 320


@dataclass(frozen=True, kw_only=True)
class Photo:
    """One photograph, a JPEG of at most 1600 pixels a side."""

    id: str
    code: str
    width_px: int
    height_px: int


class Photos:
    """Photographs by the code they belong to; the files lie in the data folder."""

    def __init__(self, ledger: Ledger, folder: DataFolder):
        self.ledger = ledger
        self.folder = folder

    def add(self, code: str, content: bytes, token: str | None = None) -> Event:
        """Keep a photograph; InvalidInput when the bytes are not one.

        The photograph's id is what comes after the slash in the event's ``code``.
        """
        parsed = Code.parse(code).text
        image = upright(content)
        jpeg = _jpeg(image, SIDE_PX)
        photo_id = hashlib.sha256(jpeg).hexdigest()[:20]
        _write_once(self._file(parsed, photo_id), jpeg)
        _write_once(self._file(parsed, photo_id, small=True), _jpeg(image, SMALL_PX))
        width, height = Image.open(io.BytesIO(jpeg)).size
        subject = f"photo:{parsed}/{photo_id}"
        record = {"width_px": width, "height_px": height}
        entry = Entry(kind=Kind.RECEIPT, code=subject, change={subject: {"record": record}})
        return self.ledger.write(lambda: entry, token)

    def of(self, code: str) -> list[Photo]:
        """The photographs of a cut or bin, oldest first."""
        prefix = f"photo:{Code.parse(code).text}/"
        rows = self.ledger.db.execute(
            "SELECT subject, record FROM record WHERE subject >= ? AND subject < ? ORDER BY rowid",
            [prefix, prefix[:-1] + "0"],
        )
        return [
            Photo(id=subject.removeprefix(prefix), code=Code.parse(code).text, **json.loads(record))
            for subject, record in rows
        ]

    def file(self, code: str, photo_id: str, *, small: bool = False) -> Path:
        """The JPEG file; NotFound when there is none."""
        known = {photo.id for photo in self.of(code)}
        path = self._file(Code.parse(code).text, photo_id, small=small)
        if photo_id not in known or not path.is_file():
            raise NotFound("no_such_photograph")
        return path

    def remove(self, code: str, photo_id: str, token: str | None = None) -> Event:
        """Take a photograph off; its file stays, so that undo brings it back."""
        self.file(code, photo_id)
        subject = f"photo:{Code.parse(code).text}/{photo_id}"
        entry = Entry(kind=Kind.DISCARD, code=subject, change={subject: {"record": None}})
        return self.ledger.write(lambda: entry, token)

    def _file(self, code: str, photo_id: str, *, small: bool = False) -> Path:
        return self.folder.photos / code / f"{photo_id}{'-small' if small else ''}.jpg"


def upright(content: bytes) -> Image.Image:
    """The picture in ``content`` as its camera held it, in RGB and without any metadata."""
    if len(content) > LARGEST_BYTES:
        raise InvalidInput("photograph_over", most_mb=LARGEST_BYTES // 1_000_000, field="photo")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image = Image.open(io.BytesIO(content))
            if image.width * image.height > MOST_PIXELS:
                raise ValueError("too many pixels")
            image.draft("RGB", (SIDE_PX, SIDE_PX))
            return ImageOps.exif_transpose(image).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
        raise InvalidInput("not_a_picture_file", field="photo") from error


def _jpeg(image: Image.Image, side_px: int) -> bytes:
    smaller = image.copy()
    smaller.thumbnail((side_px, side_px))
    out = io.BytesIO()
    smaller.save(out, "JPEG", quality=85, optimize=True)
    return out.getvalue()


def _write_once(path: Path, content: bytes) -> None:
    """Write through a neighbour, so that a half-written file is never taken for a whole one."""
    if path.exists():
        return
    draft = path.with_suffix(f".{os.getpid()}-{threading.get_ident()}.part")
    try:
        write_private(draft, content)
        draft.replace(path)
    except OSError as error:
        raise Unavailable(
            "photo_unwritable", path=str(path.parent), reason=error.strerror or str(error)
        ) from error
