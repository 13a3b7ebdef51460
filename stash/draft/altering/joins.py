"""Joins brought along: edges that were parted or grew are still sewn to what they were sewn to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from stash.draft.altering.edge_darts import sewn_mm
from stash.draft.altering.on_paper import OnPaper, whole_mm
from stash.draft.altering.ring import spot_on, starts_above
from stash.draft.geometry import Path
from stash.errors import InvalidInput
from stash.model import Joined, Point

SAME_MM = 0.5  # a join's length that is one edge's own


@dataclass(frozen=True)
class Balance:
    """A snip to make on an edge, so far from its upper or inner end."""

    piece: str
    edge: str
    mm: float


@dataclass(frozen=True)
class _Holder:
    """A part that holds an edge, or some of it: how long it is there as sewn."""

    paper: OnPaper
    edge: str
    sewn_mm: float


def brought_along(
    joins: Iterable[Joined], was: OnPaper, parts: Sequence[OnPaper],
    others: Mapping[str, OnPaper],
) -> tuple[tuple[Joined, ...], tuple[Balance, ...]]:
    """The joins of the pattern afterwards, and the snips that tell where a seam now ends."""
    kept: list[Joined] = []
    snips: list[Balance] = []
    for join in joins:
        if was.piece.name not in (join.a[0], join.b[0]):
            kept.append(join)
            continue
        made, more = _followed(join, was, parts, others)
        kept += made
        snips += more
    return tuple(kept), tuple(snips)


def _followed(
    join: Joined, was: OnPaper, parts: Sequence[OnPaper], others: Mapping[str, OnPaper]
) -> tuple[list[Joined], list[Balance]]:
    if join.a[0] != was.piece.name:
        made, snips = _followed(_swapped(join), was, parts, others)
        return [_swapped(j) for j in made], snips
    holders = _holders(was, parts, join.a[1])
    if join.b == join.a:
        return [
            Joined((h.paper.piece.name, h.edge), (h.paper.piece.name, h.edge), h.sewn_mm,
                   h.sewn_mm) for h in holders
        ], []
    if not holders:
        return [join], []
    if len(holders) == 1 or not _its_own(join, was):
        return [_grown(join, was, holders)], []
    return _shared_out(join, holders, others)


def _swapped(join: Joined) -> Joined:
    return Joined(join.b, join.a, join.b_mm, join.a_mm)


def _holders(was: OnPaper, parts: Sequence[OnPaper], edge: str) -> list[_Holder]:
    """The parts that hold some of an edge, the upper or inner one first."""
    found = [
        _Holder(p, edge, sewn_mm(p, edge)) for p in parts if edge in {e.name for e in p.edges}
    ]
    return sorted(found, key=lambda h: _begins(h.paper.edge(edge).path_mm, was, edge))


def _begins(path: Path, was: OnPaper, edge: str) -> float:
    """Where a bit of an edge begins: down it, or outwards where it lies across."""
    whole = was.edge(edge).path_mm
    upright = abs(whole[-1][0] - whole[0][0]) > abs(whole[-1][1] - whole[0][1])
    start: Point = path[0] if starts_above(path) else path[-1]
    return start[0] if upright else abs(start[1])


def _its_own(join: Joined, was: OnPaper) -> bool:
    """True when the length of a join is that of this edge alone."""
    return abs(join.a_mm - sewn_mm(was, join.a[1])) < SAME_MM


def _grown(join: Joined, was: OnPaper, holders: Sequence[_Holder]) -> Joined:
    """The join with what its edge has grown by; both halves of a sum grow."""
    first = holders[0]
    more = sum(h.sewn_mm for h in holders) - sewn_mm(was, join.a[1])
    times = 1 if _its_own(join, was) else 2
    return replace(
        join, a=(first.paper.piece.name, first.edge), a_mm=join.a_mm + times * more
    )


def _shared_out(
    join: Joined, holders: Sequence[_Holder], others: Mapping[str, OnPaper]
) -> tuple[list[Joined], list[Balance]]:
    """One join for each part of an edge, and a snip on the other side between them."""
    total = sum(h.sewn_mm for h in holders)
    made, snips, down = [], [], 0.0
    for holder in holders:
        mm = join.b_mm * holder.sewn_mm / total
        made.append(Joined((holder.paper.piece.name, holder.edge), join.b, holder.sewn_mm, mm))
        down += mm
        if holder is not holders[-1]:
            snips.append(Balance(join.b[0], join.b[1], down))
    return made, [s for s in snips if s.piece in others]


def snipped(paper: OnPaper, balance: Balance) -> OnPaper:
    """The piece with one more notch."""
    try:
        at = spot_on(paper, balance.edge, balance.mm)
    except InvalidInput:  # too near the end of the edge to be of use
        return paper
    edges = tuple(
        replace(e, notches_mm=tuple(sorted((*e.notches_mm, at.mm)))) if e.name == balance.edge
        else e for e in paper.edges
    )
    return replace(paper, edges=edges)


def new_join(parts: Sequence[OnPaper], beside: Sequence[OnPaper], seam: str) -> Joined | None:
    """The join of a new seam, of a cut fold with itself, or of a facing with its edge."""
    if not seam:
        return None
    one = beside[0] if beside else parts[0]
    other = parts[-1]
    return Joined(
        (one.piece.name, seam), (other.piece.name, seam), whole_mm(one.edge(seam)),
        sewn_mm(other, seam),
    )
