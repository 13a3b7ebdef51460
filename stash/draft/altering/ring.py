"""Walking round a piece: spots on its edges, the line from one to another, lines rejoined."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.draft.altering.on_paper import OnPaper, whole_mm
from stash.draft.cutting_line import FOLD
from stash.draft.geometry import Path, along, distance, join, length
from stash.errors import InvalidInput
from stash.fact import Term
from stash.model import Point, SewnEdge

NOTHING_MM = 1e-6
CLEAR_MM = 5.0  # a line may not start nearer to the end of an edge: chosen here
CENTRES = ("centre front", "centre back", "front edge", "crotch")


@dataclass(frozen=True)
class Spot:
    """A place on an edge, so far along it from its first point."""

    edge: str
    mm: float


def spot_on(paper: OnPaper, edge: str, mm: float | None) -> Spot:
    """The spot so far from the upper end of an edge (the inner end of one that lies across).

    The middle of the edge where nothing is said; InvalidInput beyond its ends.
    """
    line = paper.edge(edge)
    whole = whole_mm(line)
    down = whole / 2 if mm is None else mm
    if not CLEAR_MM <= down <= whole - CLEAR_MM:
        raise InvalidInput(
            "spot_off_edge", edge=Term(edge), piece=paper.piece.name, least_measure_mm=CLEAR_MM,
            most_measure_mm=whole - CLEAR_MM, field="to",
        )
    return Spot(edge, down if starts_above(line.path_mm) else whole - down)


def starts_above(path: Path) -> bool:
    """True when a line's first point is its upper end, or its inner one where it lies across."""
    (x0, y0), (x1, y1) = path[0], path[-1]
    return x0 < x1 if abs(x1 - x0) > abs(y1 - y0) else abs(y0) < abs(y1)


def point_at(edges: Sequence[SewnEdge], spot: Spot) -> Point:
    """Where a spot lies."""
    return along(next(e for e in edges if e.name == spot.edge).path_mm, spot.mm)


def arc(edges: Sequence[SewnEdge], start: Spot, end: Spot) -> tuple[SewnEdge, ...]:
    """The edges from one spot on to another, the way the ring runs, parted at both."""
    names = [e.name for e in edges]
    i, j = names.index(start.edge), names.index(end.edge)
    if i == j and end.mm >= start.mm:
        return kept((between_mm(edges[i], start.mm, end.mm),))
    count = (j - i) % len(edges) or len(edges)
    inner = [edges[(i + k) % len(edges)] for k in range(1, count)]
    first = between_mm(edges[i], start.mm, whole_mm(edges[i]))
    return kept((first, *inner, between_mm(edges[j], 0.0, end.mm)))


def between_mm(edge: SewnEdge, start_mm: float, end_mm: float) -> SewnEdge:
    """The part of an edge between two distances along it, with the snips on it."""
    return replace(
        edge, path_mm=portion(edge.path_mm, start_mm, end_mm),
        notches_mm=_within(edge.notches_mm, start_mm, end_mm),
        double_notches_mm=_within(edge.double_notches_mm, start_mm, end_mm),
    )


def _within(snips: Sequence[float], start_mm: float, end_mm: float) -> tuple[float, ...]:
    return tuple(mm - start_mm for mm in snips if start_mm <= mm <= end_mm)


def portion(path: Path, start_mm: float, end_mm: float) -> Path:
    """The part of a path between two distances along it."""
    done, inner = 0.0, []
    for a, b in zip(path, path[1:], strict=False):
        done += distance(a, b)
        if start_mm + NOTHING_MM < done < end_mm - NOTHING_MM:
            inner.append(b)
    return (along(path, start_mm), *inner, along(path, end_mm))


def kept(edges: Sequence[SewnEdge]) -> tuple[SewnEdge, ...]:
    """The edges that have any length."""
    return tuple(e for e in edges if whole_mm(e) > NOTHING_MM)


def closed(edges: Sequence[SewnEdge]) -> tuple[SewnEdge, ...]:
    """A ring of edges: parts of one edge that follow one another are one again."""
    done: list[SewnEdge] = []
    for edge in kept(edges):
        if done and done[-1].name == edge.name:
            done[-1] = _one(done[-1], edge)
        else:
            done.append(edge)
    if len(done) > 1 and done[0].name == done[-1].name:
        done = [_one(done[-1], done[0]), *done[1:-1]]
    return _each_its_name(done)


def _one(first: SewnEdge, second: SewnEdge) -> SewnEdge:
    on = length(first.path_mm)
    return replace(
        first, path_mm=join(first.path_mm, second.path_mm),
        notches_mm=(*first.notches_mm, *(on + mm for mm in second.notches_mm)),
        double_notches_mm=(
            *first.double_notches_mm, *(on + mm for mm in second.double_notches_mm)
        ),
    )


def _each_its_name(edges: Sequence[SewnEdge]) -> tuple[SewnEdge, ...]:
    """No two edges of one piece under one name."""
    taken: set[str] = set()
    named = []
    for edge in edges:
        name, number = edge.name, 1
        while name in taken:
            number += 1
            name = f"{edge.name} {number}"
        taken.add(name)
        named.append(replace(edge, name=name))
    return tuple(named)


def holds_still(first: Sequence[SewnEdge], second: Sequence[SewnEdge]) -> bool:
    """True when the first part stays where it is and the other is moved.

    The fold stays, else the centre, else the longer part: the grain is drawn on it.
    """
    def weight(edges: Sequence[SewnEdge]) -> tuple[bool, bool, float]:
        return (
            any(e.name == FOLD for e in edges), any(e.name in CENTRES for e in edges),
            sum(map(whole_mm, edges)),
        )

    return weight(first) >= weight(second)
