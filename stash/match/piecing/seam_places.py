"""Where a piece may be joined: the places in which the trade hides a seam, least harm first."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from stash.match.piecing.split import JoinRun, Split, line_mm
from stash.model import Outline, Part, Piece

# A wedge at the fork is at most this wide (from memory); at a gore's corner twice that.
FORK_MM = (70.0, 45.0, 30.0)
GORE_MM = (140.0, 90.0, 50.0)
SLEEVE_MM = (70.0, 45.0)
# A join at a corner runs no farther along the piece than this share of its length.
CORNER_SHARE = 0.45
FACING_SHARES = (0.6, 0.75)
YOKE_SHARES = (0.18, 0.25)
BANDS = {Part.WAISTBAND, Part.BAND, Part.BELT, Part.STRAP}


@dataclass(frozen=True)
class PiecingRule:
    """One row of piecing_rules.csv: ``harm`` orders the places, 1 is least."""

    place: str
    harm: int
    rule: str
    status: str
    source: str


@cache
def piecing_rules() -> dict[str, PiecingRule]:
    """Every rule, by its place."""
    text = files(__package__).joinpath("piecing_rules.csv").read_text(encoding="utf-8")
    return {
        r["place"]: PiecingRule(**{**r, "harm": int(r["harm"])})  # type: ignore[arg-type]
        for r in csv.DictReader(text.splitlines())
    }


def places(pieces: Sequence[Piece], trousers: bool = False) -> tuple[Split, ...]:
    """Every join worth trying on these pieces, least harm first.

    ``trousers`` says that fronts and backs are legs, which have a fork.
    """
    found = [split for piece in pieces for split in _of(piece, trousers)]
    return tuple(sorted(found, key=lambda split: piecing_rules()[split.place].harm))


def _of(piece: Piece, trousers: bool) -> Iterator[Split]:
    if piece.grain_turn_deg:
        return  # a join on the bias is neither along nor across
    if piece.part in BANDS:
        yield from _band(piece)
    elif piece.part is Part.FACING and not piece.on_fold:
        yield from _shares(piece, FACING_SHARES, "facing")
    elif piece.part is Part.SLEEVE and not piece.on_fold:
        yield from _corners(piece, SLEEVE_MM, "under sleeve", at_end=False)
    elif piece.part is Part.COLLAR and piece.on_fold:
        yield Split(piece=piece.name, way=JoinRun.ALONG, at_mm=(0.0,), place="collar")
    elif piece.part in (Part.BACK, Part.FRONT, Part.BODY):
        yield from _body(piece, trousers)


def _body(piece: Piece, trousers: bool) -> Iterator[Split]:
    back = piece.part is Part.BACK
    if piece.on_fold and piece.part is not Part.FRONT:
        middle = "centre back" if back else "centre of a panel"
        yield Split(piece=piece.name, way=JoinRun.ALONG, at_mm=(0.0,), place=middle)
    if piece.on_fold:
        return
    if trousers:
        fork = "back fork" if back else "front fork"
        yield from _corners(piece, FORK_MM, fork, at_end=False)
    elif piece.part is not Part.FRONT:
        yield from _corners(piece, GORE_MM, "gore corner", at_end=True)
    if back:
        yield from _shares(piece, YOKE_SHARES, "yoke")


def _band(piece: Piece) -> Iterator[Split]:
    outline = Outline(piece.outline_mm)
    left, low, right, high = outline.bounds_mm
    along = outline.length_mm >= outline.width_mm
    way = JoinRun.ACROSS if along else JoinRun.ALONG
    start, size = (left, right - left) if along else (low, high - low)
    for shares in ((0.5,), (0.25, 0.75)):
        at = tuple(start + share * size for share in shares)
        yield Split(piece=piece.name, way=way, at_mm=at, place="band")


def _shares(piece: Piece, shares: Sequence[float], place: str) -> Iterator[Split]:
    left, _, right, _ = Outline(piece.outline_mm).bounds_mm
    for share in shares:
        at = left + share * (right - left)
        yield Split(piece=piece.name, way=JoinRun.ACROSS, at_mm=(at,), place=place)


def _corners(
    piece: Piece, widths_mm: Sequence[float], place: str, *, at_end: bool
) -> Iterator[Split]:
    """Wedges off either side whose join is short; ``at_end``: those at the hem."""
    left, low, right, high = Outline(piece.outline_mm).bounds_mm
    for width in widths_mm:
        for at in (high - width, low + width):
            split = Split(piece=piece.name, way=JoinRun.ALONG, at_mm=(at,), place=place)
            ((x0, _), (x1, _)), = line_mm(piece, split)
            short = x1 - x0 <= CORNER_SHARE * (right - left)
            to_hem = x1 >= right - 0.1 * (right - left)
            if short and to_hem == at_end:
                yield split
