"""One piece in parts: straight cuts along or across the grain, with allowance on both sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from shapely import LineString, Polygon, box
from shapely import Point as Spot

from stash.errors import InvalidInput
from stash.model import Piece, Point, Seam

# What is allowed at each side of a join where nothing else is said: 10 mm, pressed open;
# common practice, no source. Less than this is left of no part.
ALLOWANCE_MM = 10.0
SLIVER_MM = 20.0
FAR_MM = 1e6


class JoinRun(StrEnum):
    """How a join runs: along the grain (a line of one y) or across it (of one x)."""

    ALONG = "along"
    ACROSS = "across"


@dataclass(frozen=True, kw_only=True)
class Split:
    """The piece named ``piece`` cut at each of ``at_mm``, which are x or y of its outline.

    ``place`` is the rule of the trade that hides the join there (piecing_rules.csv).
    """

    piece: str
    way: JoinRun
    at_mm: tuple[float, ...]
    place: str
    allowance_mm: float = ALLOWANCE_MM


def parts_of(piece: Piece, split: Split) -> tuple[Piece, ...] | None:
    """The parts, from low to high x or y; None where a part falls apart or is a sliver.

    Each part keeps the piece's grain, turns and number. A piece on the fold that is cut
    along its middle becomes a mirrored pair with a seam there.
    """
    middle = piece.on_fold and split.way is JoinRun.ALONG
    if middle and split.at_mm == (0.0,):
        half = _part(piece, split, (0.0, FAR_MM), 1, 1)
        if half is None:
            return None
        return (replace(
            half, name=piece.name, quantity=2 * piece.quantity, mirrored_pair=True, on_fold=False,
        ),)
    if middle:
        return None
    ends = (-FAR_MM, *split.at_mm, FAR_MM)
    cut = [
        _part(piece, split, (low, high), n, len(ends) - 1)
        for n, (low, high) in enumerate(zip(ends, ends[1:], strict=False), 1)
    ]
    return None if None in cut else tuple(part for part in cut if part is not None)


@dataclass(frozen=True, kw_only=True)
class SplitLines:
    """A split carried out, with the lines it runs along on the piece's own outline."""

    split: Split
    lines_mm: tuple[tuple[Point, Point], ...]


def joined(pieces: Sequence[Piece], splits: Sequence[Split]) -> tuple[SplitLines, ...]:
    """Each split with its lines; ``pieces`` are the whole ones."""
    named = {piece.name: piece for piece in pieces}
    return tuple(
        SplitLines(split=split, lines_mm=line_mm(named[split.piece], split)) for split in splits
    )


def in_parts(piece: Piece, splits: Sequence[Split]) -> tuple[Piece, ...]:
    """The piece, or its parts where one of the splits is of it.

    InvalidInput where the split does not go, so that a change that asks for it is dropped.
    """
    split = next((s for s in splits if s.piece == piece.name), None)
    if split is None:
        return (piece,)
    parts = parts_of(piece, split)
    if parts is None:
        raise InvalidInput("cannot_be_pieced_there", piece=piece.name)
    return parts


def line_mm(piece: Piece, split: Split) -> tuple[tuple[Point, Point], ...]:
    """Where the joins run on the piece's outline, end to end."""
    return tuple(_across(piece.outline_mm, split.way, at) for at in split.at_mm)


def joins(piece: Piece, split: Split) -> tuple[Seam, ...]:
    """The seams it adds, every copy of the piece counted."""
    return tuple(
        Seam(f"{piece.name}, joined", LineString(line).length * piece.quantity)
        for line in line_mm(piece, split)
    )


def _part(
    piece: Piece, split: Split, between: tuple[float, float], number: int, of: int
) -> Piece | None:
    low, high = between
    allow = split.allowance_mm
    outline = _clipped(piece.outline_mm, split.way, low - allow, high + allow)
    bare = _clipped(piece.outline_mm, split.way, low, high)
    if outline is None or bare is None or _is_sliver(bare):
        return None
    stitch = _clipped(piece.stitch_mm, split.way, low, high) if piece.stitch_mm else None
    return replace(
        piece, name=f"{piece.name} {number}/{of}", outline_mm=_ring(outline),
        stitch_mm=_ring(stitch) if stitch else (),
        notches_mm=_inside(piece.notches_mm, bare),
        marks_mm=tuple(m for m in piece.marks_mm if all(bare.covers(Spot(p)) for p in m)),
        match_points_mm=_inside(piece.match_points_mm, bare),
    )


def _clipped(ring: Sequence[Point], way: JoinRun, low: float, high: float) -> Polygon | None:
    """The ring between two lines; None when that is not one piece without holes."""
    window = (
        box(-FAR_MM, low, FAR_MM, high) if way is JoinRun.ALONG else box(low, -FAR_MM, high, FAR_MM)
    )
    found = Polygon(ring).intersection(window)
    whole = isinstance(found, Polygon) and not found.is_empty and not found.interiors
    return found if whole and isinstance(found, Polygon) else None


def _is_sliver(shape: Polygon) -> bool:
    """True when nothing as wide as a sliver's measure fits inside."""
    return shape.buffer(-SLIVER_MM / 2).is_empty


def _inside(points: Sequence[Point], shape: Polygon) -> tuple[Point, ...]:
    return tuple(point for point in points if shape.covers(Spot(point)))


def _ring(shape: Polygon) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])


def _across(ring: Sequence[Point], way: JoinRun, at: float) -> tuple[Point, Point]:
    ends = (
        ((-FAR_MM, at), (FAR_MM, at)) if way is JoinRun.ALONG else ((at, -FAR_MM), (at, FAR_MM))
    )
    left, low, right, high = LineString(ends).intersection(Polygon(ring)).bounds
    return (left, low), (right, high)
