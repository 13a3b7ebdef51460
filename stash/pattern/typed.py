"""Pieces typed in from a paper pattern: a rectangle, or a few widths down the length."""

from __future__ import annotations

import re
from dataclasses import dataclass

from stash.errors import InvalidInput
from stash.model import Outline, Piece, Point, Role
from stash.pattern.annotation import read_annotation
from stash.pattern.part_words import part_named
from stash.quantity import Quantity, read_length

LONGEST_MM = 10_000.0
FORM = (
    "write for example “front, 104cm x 30cm, cut 2, mirrored” or, with widths from the top "
    "down, “back, 70cm x 20cm-28cm, on fold”"
)


@dataclass(frozen=True, kw_only=True)
class TypedPiece:
    """What is known of a piece: its length along the grain and its width, or several widths.

    ``widths_mm`` are measured across at even steps from the top to the foot, as the
    paper piece is: for a piece on the fold, from the fold to the edge.
    """

    name: str
    length_mm: float
    widths_mm: tuple[float, ...]
    quantity: int = 1
    mirrored_pair: bool = False
    on_fold: bool = False
    role: Role = Role.MAIN


def typed_piece(typed: TypedPiece) -> Piece:
    """The piece: its outline about a straight centre line, or opened out about its fold."""
    if not typed.name.strip():
        raise InvalidInput("piece_needs_name", field="name")
    if typed.quantity < 1 or (typed.mirrored_pair and typed.quantity % 2):
        raise InvalidInput(
            "pair_is_odd" if typed.mirrored_pair else "quantity_below_one",
            piece=typed.name, quantity=typed.quantity, field="quantity",
        )
    return Piece(
        name=typed.name.strip(),
        outline_mm=_outline(typed),
        quantity=typed.quantity,
        mirrored_pair=typed.mirrored_pair and not typed.on_fold,
        on_fold=typed.on_fold,
        role=typed.role,
        part=part_named(typed.name),
    )


def _outline(typed: TypedPiece) -> tuple[Point, ...]:
    sizes = (typed.length_mm, *typed.widths_mm)
    if not typed.widths_mm or any(not 0 <= s <= LONGEST_MM for s in sizes):
        raise InvalidInput("sizes_out_of_range", piece=typed.name, most_length_mm=LONGEST_MM)
    if max(typed.widths_mm) < 1 or typed.length_mm < 1:
        raise InvalidInput("piece_without_area", piece=typed.name)
    halves = [w if typed.on_fold else w / 2 for w in typed.widths_mm]
    if len(halves) == 1:
        whole = Outline.rectangle(typed.length_mm, 2 * halves[0]).ring_mm
        return tuple((x, y - halves[0]) for x, y in whole)
    step = typed.length_mm / (len(halves) - 1)
    right = [(i * step, half) for i, half in enumerate(halves)]
    left = [(x, -half) for x, half in reversed(right) if half > 0]
    return (*right, *left)


def parse_typed(text: str) -> Piece:
    """The piece that a line such as "front, 104cm x 30cm, cut 2, mirrored" describes.

    Widths are joined by "-" from the top down: "104cm x 28cm-36cm-22cm".
    """
    parts = [part.strip() for part in text.split(",")]
    size = next((p for p in parts[1:] if re.match(r"[\d.,½¼¾⅛⅜⅝⅞].*[x×]", p)), None)
    if not parts[0] or size is None:
        raise InvalidInput("not_a_piece", typed=text.strip()[:60], field="piece")
    length, widths = re.split(r"[x×]", size, maxsplit=1)
    rest = [p for p in parts[1:] if p is not size]
    said = read_annotation(rest)
    mirrored = said.mirrored_pair or "mirrored" in (p.lower() for p in rest)
    return typed_piece(
        TypedPiece(
            name=parts[0],
            length_mm=read_length(length, Quantity.PATTERN, field="piece"),
            widths_mm=_widths(widths),
            quantity=said.quantity or (2 if mirrored else 1),
            mirrored_pair=mirrored,
            on_fold=said.on_fold,
            role=said.role,
        )
    )


def _widths(text: str) -> tuple[float, ...]:
    parts = re.split(r"\s*[-–]\s*", text.strip())
    return tuple(read_length(part, Quantity.PATTERN, field="piece") for part in parts)
