"""Interfacing: a safe amount for the fused pieces before anyone has laid them out."""

from __future__ import annotations

from collections.abc import Iterable

from stash.errors import InvalidInput
from stash.model import Need, NotionKind, Outline, Piece
from stash.notions.rules import value


def interfacing_length_mm(pieces: Iterable[Piece], width_mm: float | None = None) -> float:
    """Enough length at ``width_mm`` (usual width when None): boxes of the pieces in rows.

    Rows are filled across the width, longest pieces first. A real lay never needs
    more and may need less. A piece lies either way: nonwoven interfacing has no grain,
    and a band's support is cut across as well as along (common practice, no source).
    """
    width = value("interfacing_width") if width_mm is None else width_mm
    boxes = sorted(
        (
            _flat(outline.length_mm, outline.width_mm, width)
            for piece in pieces
            for outline in [Outline(piece.outline_mm)] * piece.quantity
        ),
        reverse=True,
    )
    length = row_left = 0.0
    for long, wide in boxes:
        if wide > width:
            raise InvalidInput("wider_than_interfacing", width_mm=wide, field="width")
        if wide > row_left:
            length, row_left = length + long, width
        row_left -= wide
    return length


def _flat(length_mm: float, width_mm: float, across_mm: float) -> tuple[float, float]:
    """(along, across): the longer side across where it goes on, else along."""
    long, short = max(length_mm, width_mm), min(length_mm, width_mm)
    return (short, long) if long <= across_mm else (long, short)


def interfacing_need(
    pieces: Iterable[Piece], why: str = "fused pieces", *, fusible: bool | None = True
) -> Need:
    """Length of interfacing at its usual width that surely holds these pieces."""
    return Need(
        kind=NotionKind.INTERFACING,
        why=why,
        length_mm=interfacing_length_mm(pieces),
        fusible=fusible,
    )
