"""A facing from an edge: the edge's own line, a width that is the same everywhere, darts closed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely import LineString, Polygon
from shapely import Point as Place
from shapely.ops import substring

from stash.draft.altering.edge_darts import OpenDart, darts_of
from stash.draft.altering.on_paper import Move, OnPaper, moved_edge, whole_mm
from stash.draft.altering.rigid import still, then, turn_onto
from stash.draft.altering.ring import between_mm, closed
from stash.draft.cutting_line import FOLD
from stash.draft.geometry import Path, distance, solve
from stash.errors import InvalidInput
from stash.model import Part, Point, SewnEdge

FINE = 64  # points in a quarter of a circle: a tenth of a millimetre strays at no width
INNER = "inner"


def facing(paper: OnPaper, edge: str, width_mm: float) -> OnPaper:
    """The facing of one edge; InvalidInput when the piece is too small beside the edge."""
    faced = paper.edge(edge)
    if faced.turned:
        raise InvalidInput("edge_turned_already", piece=paper.piece.name, edge=edge, field="edge")
    place = paper.edges.index(faced)
    before, after = paper.edges[place - 1], paper.edges[(place + 1) % len(paper.edges)]
    before, outer, after = _darts_closed(paper, (before, faced, after), width_mm)
    line = LineString(outer.path_mm)
    down = _until(after, line, width_mm, paper)
    up = _until(_back(before), line, width_mm, paper)
    inner = _inner(line, width_mm, (down.path_mm[-1], up.path_mm[-1]), (before, after))
    edges = (outer, down, SewnEdge(name=INNER, path_mm=inner), _back(up))
    piece = replace(
        paper.piece, name=f"{paper.piece.name} {edge} facing", part=Part.FACING,
        match_points_mm=(),
    )
    return OnPaper(piece=piece, edges=edges)


def _darts_closed(
    paper: OnPaper, edges: tuple[SewnEdge, SewnEdge, SewnEdge], width_mm: float
) -> tuple[SewnEdge, SewnEdge, SewnEdge]:
    """The edge and its neighbours as they lie when the darts of the edge are sewn."""
    before, faced, after = edges
    darts = sorted(
        (d for d in darts_of(paper) if d.edge == faced.name), key=lambda d: d.start_mm)
    for dart in darts:
        depth = distance(dart.first, dart.tip)
        if depth <= width_mm:
            raise InvalidInput("facing_past_dart", piece=paper.piece.name,
                               most_measure_mm=depth, field="width")
    starts = [0.0, *(d.end_mm for d in darts)]
    ends = [*(d.start_mm for d in darts), whole_mm(faced)]
    parts = [between_mm(faced, a, b) for a, b in zip(starts, ends, strict=True)]
    moves = _onto_last(darts) if after.name == FOLD else _onto_first(darts)
    whole = [moved_edge(p, m) for p, m in zip(parts, moves, strict=True)]
    (outer,) = closed(whole)
    return moved_edge(before, moves[0]), outer, moved_edge(after, moves[-1])


def _onto_first(darts: Sequence[OpenDart]) -> list[Move]:
    """Each dart closed by turning what lies beyond it."""
    moves: list[Move] = [still]
    for dart in darts:
        moves.append(then(turn_onto(dart.tip, dart.last, dart.first), moves[-1]))
    return moves


def _onto_last(darts: Sequence[OpenDart]) -> list[Move]:
    """Each dart closed by turning what lies before it."""
    moves: list[Move] = [still]
    for dart in reversed(darts):
        moves.append(then(turn_onto(dart.tip, dart.first, dart.last), moves[-1]))
    return moves[::-1]


def _back(edge: SewnEdge) -> SewnEdge:
    return replace(edge, path_mm=edge.path_mm[::-1], notches_mm=(), double_notches_mm=())


def _until(edge: SewnEdge, line: LineString, width_mm: float, paper: OnPaper) -> SewnEdge:
    """A neighbouring edge as far as it is within the width of the faced one."""
    path = LineString(edge.path_mm)

    def beyond(mm: float) -> float:
        return float(line.distance(path.interpolate(mm))) - width_mm

    if beyond(path.length) <= 0:
        most = float(line.distance(Place(edge.path_mm[-1])))
        raise InvalidInput("facing_too_wide", piece=paper.piece.name, most_measure_mm=most,
                           field="width")
    part = between_mm(edge, 0.0, solve(beyond, 0.0, path.length))
    return replace(part, notches_mm=(), double_notches_mm=())


def _inner(
    line: LineString, width_mm: float, ends: tuple[Point, Point],
    beside: tuple[SewnEdge, SewnEdge],
) -> Path:
    """The line at the width from the edge, on the side of the neighbours."""
    rim = line.buffer(width_mm, quad_segs=FINE).exterior
    inside = Polygon([*line.coords, *beside[1].path_mm, *beside[0].path_mm]).buffer(0)
    ways = _both_ways(LineString(rim.coords), ends)
    best = max(ways, key=lambda way: float(way.intersection(inside).length) / way.length)
    inner = [(float(x), float(y)) for x, y in best.coords[1:-1]]
    return (ends[0], *inner, ends[1])


def _both_ways(rim: LineString, ends: tuple[Point, Point]) -> list[LineString]:
    """The rim from the first end to the second, one way round and the other."""
    a, b = (float(rim.project(Place(e))) for e in ends)
    low, high = min(a, b), max(a, b)
    straight = list(substring(rim, low, high).coords)
    around = [*substring(rim, high, rim.length).coords, *substring(rim, 0.0, low).coords]
    ways = [straight, around[::-1]] if a < b else [straight[::-1], around]
    return [LineString(w) for w in ways]
