"""How patterns are read from files, and said as JSON and as text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from stash.errors import InvalidInput
from stash.model import Outline, Piece
from stash.model.wire import piece_json
from stash.pattern.drawn import Reading
from stash.units import format_length, format_width

MOST_BYTES = 60_000_000


def read_file(path: Path) -> bytes:
    """What a file holds; InvalidInput when it is not there or far too large."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise InvalidInput(f"“{path.name}” is larger than 60 MB.", field="file")
        return path.read_bytes()
    except OSError as error:
        raise InvalidInput(f"“{path}” cannot be read: {error.strerror}.", field="file") from None


def renamed(pieces: Sequence[Piece], names: Sequence[str]) -> tuple[Piece, ...]:
    """The pieces with the given names, in order; those beyond them keep theirs."""
    if len(names) > len(pieces):
        raise InvalidInput(f"There are {len(pieces)} pieces, but {len(names)} names were given.")
    kept = [*names, *(piece.name for piece in pieces[len(names) :])]
    if len(set(kept)) < len(kept):
        raise InvalidInput("Two pieces have the same name.", field="piece")
    return tuple(replace(p, name=n) for p, n in zip(pieces, kept, strict=True))


def piece_value(piece: Piece, drawn_mm: tuple[float, float] | None = None) -> dict:
    """One piece; width and height as drawn in the file, or across and along the grain."""
    outline = Outline(piece.outline_mm)
    width, height = drawn_mm or (outline.width_mm, outline.length_mm)
    return {
        **piece_json(piece), "width_mm": round(width, 2), "height_mm": round(height, 2),
        "area_mm2": round(outline.area_mm2, 1),
    }


def reading_json(reading: Reading, errors: Sequence[float] = ()) -> dict:
    """The pieces that came in, and what was left out or assumed."""
    pieces = [
        piece_value(piece, drawn)
        for piece, drawn in zip(reading.pieces, reading.drawn_mm, strict=True)
    ]
    for value, error in zip(pieces, errors, strict=False):
        value["error_mm"] = error
    return {"pieces": pieces, "notes": list(reading.notes)}


def reading_text(title: str, reading: Reading) -> str:
    """The pieces, a line each, under a title."""
    return "\n".join([title, *map(piece_line, reading.pieces), *reading.notes])


def piece_line(piece: Piece) -> str:
    """One piece in one line: how many, which way, how large."""
    box = Outline(piece.outline_mm)
    ways = " mirrored" if piece.mirrored_pair else " on the fold" if piece.on_fold else ""
    size = f"{format_length(box.length_mm)} x {format_width(box.width_mm)}"
    return f"  {piece.quantity} {piece.name}{ways}, {size}"


def candidate_line(candidate: dict) -> str:
    """One cut that is long enough."""
    spare = format_length(candidate["spare_mm"])
    return f"  {candidate['cut']}  {candidate['name']}, {spare} spare"
