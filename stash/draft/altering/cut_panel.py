"""A piece cut in two along a style line; a dart that the line meets goes into the seam."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from stash.draft.altering.edge_darts import OpenDart
from stash.draft.altering.marks import moved_one_side, parted
from stash.draft.altering.move_dart import slash_inside
from stash.draft.altering.on_paper import OnPaper
from stash.draft.altering.rigid import still
from stash.draft.altering.ring import CENTRES, Spot, arc, closed, holds_still, point_at
from stash.draft.cutting_line import FOLD
from stash.draft.geometry import Path, between, curve, distance, join, length, thinned
from stash.errors import InvalidInput
from stash.model import Mark, Piece, Point, SewnEdge

LineEnd = Spot | OpenDart
# Chosen here: how long a curve runs on as a dart points, how nearly the dart must point that way,
# and how finely the curve is drawn.
PULL, LEAST_AHEAD, NEAR_MM = 0.35, 0.3, 0.1


@dataclass(frozen=True, kw_only=True)
class StyleLine:
    """Where a piece is cut: from one end, through points, to the other; the new seam's name."""

    start: LineEnd
    end: LineEnd
    via: tuple[Point, ...] = ()
    seam: str
    allowance_mm: float


def cut_panel(paper: OnPaper, line: StyleLine) -> tuple[OnPaper, OnPaper]:
    """Both parts, the one that holds the fold or the centre first; the seam on both.

    InvalidInput when the line leaves the piece.
    """
    before_start, after_start, from_tip = _end(paper, line.start)
    before_end, after_end, to_tip = _end(paper, line.end)
    inner = _drawn(paper, line, from_tip, to_tip)
    one = arc(paper.edges, after_start, before_end)
    other = arc(paper.edges, after_end, before_start)
    darts = tuple(e.mark for e in (line.start, line.end) if isinstance(e, OpenDart))
    ends = (_seam(paper, line, (before_end, inner[::-1], after_start)),
            _seam(paper, line, (before_start, inner, after_end)))
    parts = [closed((*edges, seam)) for edges, seam in zip((one, other), ends, strict=True)]
    made = _made(paper, parts, darts)
    return made if holds_still(one, other) else made[::-1]


def _drawn(paper: OnPaper, line: StyleLine, start: Point, end: Point) -> Path:
    """The line between both ends; from the tip of a dart it runs on as the dart points, in one
    curve, so that the seam has no corner there but the dart's own.
    """
    whole = distance(start, end)
    darted = [isinstance(e, OpenDart) for e in (line.start, line.end)]
    if any(darted) and not line.via and whole > 1:
        pulls = _pull(line.start, start, end), _pull(line.end, end, start)
        curved = thinned(curve(start, *pulls, end), NEAR_MM)
        with suppress(InvalidInput):
            slash_inside(paper, curved)
            return curved
    straight = (start, *line.via, end)
    slash_inside(paper, straight)
    return straight


def _pull(at: LineEnd, own: Point, other: Point) -> Point:
    """Where the curve is drawn towards from one of its ends."""
    reach = PULL * distance(own, other)
    if isinstance(at, OpenDart):
        mouth = between(at.first, at.last)
        leg = distance(mouth, own) or 1.0
        way = (own[0] - mouth[0]) / leg, (own[1] - mouth[1]) / leg
        ahead = way[0] * (other[0] - own[0]) + way[1] * (other[1] - own[1])
        if ahead > LEAST_AHEAD * distance(own, other):
            return own[0] + reach * way[0], own[1] + reach * way[1]
    return between(own, other, PULL)


def _end(paper: OnPaper, end: LineEnd) -> tuple[Spot, Spot, Point]:
    """Where the ring stops before the line, where it goes on after it, and where the line is."""
    if isinstance(end, OpenDart):
        return Spot(end.edge, end.start_mm), Spot(end.edge, end.end_mm), end.tip
    return end, end, point_at(paper.edges, end)


def _seam(
    paper: OnPaper, line: StyleLine, ends: tuple[Spot, Path, Spot]
) -> SewnEdge:
    """The new edge of one part, snipped at the tips of the darts it took in, else half way."""
    start, inner, end = ends
    path = join(
        *((p,) for p in (point_at(paper.edges, start), *inner, point_at(paper.edges, end)))
    )
    tips = [e.tip for e in (line.start, line.end) if isinstance(e, OpenDart)]
    snips = tuple(length(path[: path.index(t) + 1]) for t in tips) or (length(path) / 2,)
    return SewnEdge(
        name=line.seam, path_mm=path, allowance_mm=line.allowance_mm, notches_mm=snips
    )


def _made(
    paper: OnPaper, parts: Sequence[tuple[SewnEdge, ...]], darts: tuple[Mark, ...]
) -> tuple[OnPaper, OnPaper]:
    shapes = [tuple(p for e in part for p in e.path_mm[:-1]) for part in parts]
    marks = parted([m for m in paper.marks if m not in darts], shapes)
    lone = [moved_one_side(paper.one_side, [shape], [still]) for shape in shapes]
    first, second = (
        OnPaper(piece=_counted(paper, part), edges=part, marks=each,
                one_side=side if _folded(part) else ())
        for part, each, side in zip(parts, marks, lone, strict=True)
    )
    return first, second


def _folded(edges: Sequence[SewnEdge]) -> bool:
    return any(e.name == FOLD for e in edges)


def _counted(paper: OnPaper, edges: Sequence[SewnEdge]) -> Piece:
    """A part off the fold is cut as a mirrored pair."""
    piece = paper.piece
    if not paper.on_fold or _folded(edges):
        return piece
    return replace(piece, on_fold=False, mirrored_pair=True, quantity=2 * piece.quantity)


def unfolded(paper: OnPaper, seam: str, allowance_mm: float) -> OnPaper:
    """A folded piece cut apart at its fold: a mirrored pair with a seam there."""
    if not paper.on_fold:
        raise InvalidInput("not_on_fold", piece=paper.piece.name, field="piece")
    edges = tuple(
        replace(e, name=seam, allowance_mm=allowance_mm) if e.name == FOLD else e
        for e in paper.edges
    )
    piece = replace(
        paper.piece, on_fold=False, mirrored_pair=True, quantity=2 * paper.piece.quantity
    )
    return replace(paper, piece=piece, edges=edges)


def two_named(parts: tuple[OnPaper, OnPaper], line: Path) -> tuple[OnPaper, OnPaper]:
    """Upper and lower, centre and side, else inner and outer."""
    first, second = parts
    (x0, y0), (x1, y1) = line[0], line[-1]
    if abs(y1 - y0) > abs(x1 - x0):
        words = ("upper", "lower")
        first, second = sorted(parts, key=lambda p: _middle(p)[0])
    elif any(e.name in (FOLD, *CENTRES) for e in first.edges):
        words = ("centre", "side")
    else:
        words = ("inner", "outer")
        first, second = sorted(parts, key=lambda p: abs(_middle(p)[1]))
    name = first.piece.name
    return first.named(f"{name} {words[0]}"), second.named(f"{name} {words[1]}")


def _middle(paper: OnPaper) -> Point:
    ring = paper.ring
    return sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)
