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
from stash.foreign import read_apart
from stash.foreign.limits import PICTURE
from stash.foreign.picture import ACCEPTED, checked_size
from stash.ledger import Entry, Event, Kind
from stash.model import Code
from stash.store.folder import DataFolder, write_private
from stash.store.ledger import Ledger

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
        kept = read_apart(PICTURE, prepared, content)
        photo_id = hashlib.sha256(kept.jpeg).hexdigest()[:20]
        _write_once(self._file(parsed, photo_id), kept.jpeg)
        _write_once(self._file(parsed, photo_id, small=True), kept.small)
        subject = f"photo:{parsed}/{photo_id}"
        record = {"width_px": kept.width_px, "height_px": kept.height_px}
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


@dataclass(frozen=True, kw_only=True)
class PreparedPhoto:
    """A photograph as it is kept: JPEGs of at most 1600 and 320 pixels a side."""

    jpeg: bytes
    small: bytes
    width_px: int
    height_px: int


def prepared(content: bytes) -> PreparedPhoto:
    """The picture in ``content`` upright, made smaller, in RGB and without any metadata."""
    image = upright(content)
    smaller = _smaller(image, SIDE_PX)
    return PreparedPhoto(jpeg=_jpeg(smaller), small=_jpeg(_smaller(image, SMALL_PX)),
                    width_px=smaller.width, height_px=smaller.height)


def upright(content: bytes) -> Image.Image:
    """The picture as its camera held it, in RGB; InvalidInput when it is none or too large."""
    checked_size(content)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            image = Image.open(io.BytesIO(content), formats=ACCEPTED)
            image.draft("RGB", (SIDE_PX, SIDE_PX))
            return ImageOps.exif_transpose(image).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError, TypeError,
            LookupError, ArithmeticError) as error:
        raise InvalidInput("picture_damaged", field="photo") from error


def _smaller(image: Image.Image, side_px: int) -> Image.Image:
    smaller = image.copy()
    smaller.thumbnail((side_px, side_px))
    return smaller


def _jpeg(image: Image.Image) -> bytes:
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85, optimize=True)
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
