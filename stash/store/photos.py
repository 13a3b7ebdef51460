"""Photographs of cuts and bins: checked, turned upright, made smaller, and without a location."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from stash.errors import NotFound
from stash.foreign import read_apart
from stash.foreign.limits import PICTURE
from stash.ledger import Entry, Event, Kind
from stash.model import Code
from stash.model.underlay import photo_number
from stash.store.folder import DataFolder, write_once
from stash.store.ledger import Ledger


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
        from stash.store.photo_prepared import prepared  # Pillow comes with the first photograph

        parsed = Code.parse(code).text
        kept = read_apart(PICTURE, prepared, content)
        photo_id = photo_number(kept.jpeg)
        write_once(self._file(parsed, photo_id), kept.jpeg)
        write_once(self._file(parsed, photo_id, small=True), kept.small)
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

    def first_of(self, codes: Iterable[str]) -> dict[str, str]:
        """The id of the first photograph of each of these codes that has one."""
        found = {}
        for code in codes:
            prefix = f"photo:{code}/"
            row = self.ledger.db.execute(
                "SELECT subject FROM record WHERE subject >= ? AND subject < ?"
                " ORDER BY rowid LIMIT 1", [prefix, prefix[:-1] + "0"]).fetchone()
            if row:
                found[code] = row[0].removeprefix(prefix)
        return found

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
