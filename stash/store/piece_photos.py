"""The photographs that traced pieces lie over: files of the data folder, named by the record.

A version of a pattern says which photograph lies under which piece (``Piece.under``). A file is
never taken away: an undo may bring back the version that names it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from stash.errors import NotFound
from stash.model import Pattern
from stash.model.underlay import photo_number
from stash.store.folder import DataFolder, write_once

PIECES = "pieces"  # the folder beside those of the codes; no code is written so


class PiecePhotos:
    """Photographs by their number."""

    def __init__(self, folder: DataFolder):
        self.folder = folder

    def keep(self, jpeg: bytes) -> str:
        """Keep a photograph; its number. Unavailable when it cannot be written."""
        number = photo_number(jpeg)
        write_once(self.folder.photos / PIECES / f"{number}.jpg", jpeg)
        return number

    def under(self, pattern: Pattern, number: str) -> bytes:
        """A photograph that lies under a piece of this pattern; NotFound when none does."""
        known = {piece.under.photo for piece in pattern.pieces if piece.under}
        path = self.folder.photos / PIECES / f"{number}.jpg"
        if number not in known or not path.is_file():
            raise NotFound("no_such_photograph")
        return path.read_bytes()


def numbers_in(record: Mapping[str, Any] | None) -> Iterator[str]:
    """The photographs that a kept version of a pattern names, as it lies in the ledger."""
    pattern = (record or {}).get("pattern") or {}
    for piece in pattern.get("pieces", ()):
        if under := piece.get("under"):
            yield under["photo"]
