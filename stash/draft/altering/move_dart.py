"""A dart moved: the paper is slashed to its tip, the dart closed, and it opens at the slash."""

from __future__ import annotations

from dataclasses import replace

from shapely import LineString, Polygon

from stash.draft.altering.edge_darts import (
    OpenDart,
    opened,
    pinned,
    tip_short_mm,
    without,
)
from stash.draft.altering.marks import moved_marks, moved_one_side
from stash.draft.altering.on_paper import Move, OnPaper, moved_edge
from stash.draft.altering.rigid import still, turn_onto
from stash.draft.altering.ring import Spot, arc, closed, holds_still, point_at
from stash.draft.cutting_line import FOLD
from stash.draft.geometry import Path, between, towards
from stash.errors import InvalidInput
from stash.model import Mark, MarkKind, Point, SewnEdge

REACH_MM = 0.5  # a slash may leave the piece by so much, where an edge is hollow


def move_dart(paper: OnPaper, dart: OpenDart, to: Spot, *, as_flare: bool = False) -> OnPaper:
    """The dart closed about its tip and opened at a spot on an edge.

    Nothing outside the dart changes its size or shape; ``as_flare`` leaves the opening in
    the edge instead of marking a dart there. A dart that points at the bust turns about the bust
    point, and the new one ends as far short of it as the old one did.
    """
    if to.edge == FOLD:
        raise InvalidInput("dart_to_fold", piece=paper.piece.name, field="to")
    short, dart = tip_short_mm(paper, dart), pinned(paper, dart)
    slash_inside(paper, (point_at(paper.edges, to), dart.tip))
    first = arc(paper.edges, Spot(dart.edge, dart.end_mm), to)
    second = arc(paper.edges, to, Spot(dart.edge, dart.start_mm))
    moves = _closing(dart, first, second)
    ends = _paths(first, second)
    one, other = (
        tuple(moved_edge(e, move) for e in part)
        for part, move in zip((first, second), moves, strict=True)
    )
    tip = towards(dart.tip, between(one[-1].path_mm[-1], other[0].path_mm[0]), short)
    gap = opened(one[-1], tip, other[0])
    if as_flare:
        gap = replace(gap, path_mm=(gap.path_mm[0], gap.path_mm[-1]))
    shapes = [(*path, dart.tip) for path in ends]
    marks = moved_marks(without(paper, dart), shapes, moves)
    if not as_flare:
        marks += (_dart_mark(gap, tip),)
    return replace(
        paper, edges=closed((*one, gap, *other)), marks=marks,
        one_side=moved_one_side(paper.one_side, shapes, moves),
    )


def _closing(
    dart: OpenDart, first: tuple[SewnEdge, ...], second: tuple[SewnEdge, ...]
) -> tuple[Move, Move]:
    """How the two parts move: one stays, the other turns until the legs meet."""
    if holds_still(second, first):
        return turn_onto(dart.tip, dart.last, dart.first), still
    return still, turn_onto(dart.tip, dart.first, dart.last)


def _paths(*parts: tuple[SewnEdge, ...]) -> list[Path]:
    return [tuple(p for e in part for p in e.path_mm) for part in parts]


def _dart_mark(gap: SewnEdge, tip: Point) -> Mark:
    return Mark(MarkKind.DART, (gap.path_mm[0], tip, gap.path_mm[-1]))


def slash_inside(paper: OnPaper, line: Path) -> None:
    """InvalidInput when a line to cut along leaves the piece."""
    shape = Polygon(paper.ring)
    if not shape.buffer(REACH_MM).covers(LineString(line)):
        raise InvalidInput("line_leaves_piece", piece=paper.piece.name, field="to")
