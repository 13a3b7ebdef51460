"""The darts of a piece: where each opens on an edge, its legs, and the pin it closes about."""

from __future__ import annotations

from dataclasses import dataclass, replace

from shapely import Polygon

from stash.draft.altering.on_paper import OnPaper, reach, whole_mm
from stash.draft.altering.ring import NOTHING_MM, portion, starts_above
from stash.draft.cutting_line import FOLD
from stash.draft.darts import BESIDE_MM
from stash.draft.geometry import Path, along, between, crossing, distance, length, reflected
from stash.errors import InvalidInput
from stash.fact import Term
from stash.model import Mark, MarkKind, Point, SewnEdge

BUST_FROM_TIP_MM, BESIDE_AXIS = 70.0, 0.35  # chosen here: how near a dart ends to its bust point
LEGS_MM = 0.1  # legs may differ by so much, else the dart does not close to a line


@dataclass(frozen=True, kw_only=True)
class OpenDart:
    """A dart that opens on an edge from ``start_mm`` to ``end_mm`` along it.

    ``first`` and ``last`` are its legs' ends in the order in which the edge runs. It closes
    about ``tip``.
    """

    edge: str
    start_mm: float
    end_mm: float
    first: Point
    tip: Point
    last: Point
    mark: Mark

    @property
    def opens_mm(self) -> float:
        """The length of edge it takes in, as cut."""
        return self.end_mm - self.start_mm

    def wedge_mm2(self, paper: OnPaper) -> float:
        """The paper between its legs and the edge."""
        edge = portion(paper.edge(self.edge).path_mm, self.start_mm, self.end_mm)
        return float(Polygon([*edge, self.tip]).area)


def darts_of(paper: OnPaper) -> tuple[OpenDart, ...]:
    """Every dart that opens on an edge, in order along each edge from its upper or inner end."""
    found = []
    for edge in paper.edges:
        on_it = [d for m in paper.marks if (d := _on(edge, m)) is not None]
        on_it.sort(key=lambda d: d.start_mm, reverse=not starts_above(edge.path_mm))
        found += on_it
    return tuple(found)


def _on(edge: SewnEdge, mark: Mark) -> OpenDart | None:
    if edge.name == FOLD or mark.kind is not MarkKind.DART or len(mark.at_mm) != 3:
        return None
    a, tip, b = mark.at_mm
    at_a, at_b = reach(edge, a), reach(edge, b)
    if at_a is None or at_b is None or abs(at_a - at_b) < NOTHING_MM:
        return None
    if at_a > at_b:
        a, b, at_a, at_b = b, a, at_b, at_a
    return OpenDart(edge=edge.name, start_mm=at_a, end_mm=at_b, first=a, tip=tip, last=b,
                    mark=mark)


def dart_at(paper: OnPaper, edge: str, number: int | None) -> OpenDart:
    """One dart of an edge; InvalidInput when there is none, several, or its legs disagree."""
    paper.edge(edge)
    there = [d for d in darts_of(paper) if d.edge == edge]
    if not there:
        raise InvalidInput("no_dart_there", piece=paper.piece.name, edge=Term(edge), field="dart")
    if number is None and len(there) > 1:
        raise InvalidInput(
            "which_dart", piece=paper.piece.name, edge=edge, darts=len(there), field="dart"
        )
    if not 1 <= (number or 1) <= len(there):
        raise InvalidInput(
            "which_dart", piece=paper.piece.name, edge=edge, darts=len(there), field="dart"
        )
    dart = there[(number or 1) - 1]
    apart = abs(distance(dart.first, dart.tip) - distance(dart.last, dart.tip))
    if apart > LEGS_MM:
        raise InvalidInput(
            "dart_legs_differ", piece=paper.piece.name, edge=edge, apart_mm=apart, field="dart"
        )
    return dart


def tip_short_mm(paper: OnPaper, dart: OpenDart) -> float:
    """How far short of the bust point a dart ends, along its middle line; 0 when it points at none.

    A dart is turned about the bust point and drawn again so far short of it (common practice).
    """
    mouth = between(dart.first, dart.last)
    leg = distance(mouth, dart.tip)
    if leg < NOTHING_MM:
        return 0.0
    way = (dart.tip[0] - mouth[0]) / leg, (dart.tip[1] - mouth[1]) / leg
    for mark in paper.marks:
        if mark.kind is not MarkKind.BUST:
            continue
        dx, dy = mark.at_mm[0][0] - dart.tip[0], mark.at_mm[0][1] - dart.tip[1]
        ahead, beside = dx * way[0] + dy * way[1], abs(dx * way[1] - dy * way[0])
        if 0 < ahead <= BUST_FROM_TIP_MM and beside <= BESIDE_AXIS * ahead:
            return ahead
    return 0.0


def pinned(paper: OnPaper, dart: OpenDart) -> OpenDart:
    """The dart drawn on to the bust point, about which it turns."""
    short = tip_short_mm(paper, dart)
    if not short:
        return dart
    mouth = between(dart.first, dart.last)
    leg = distance(mouth, dart.tip)
    return replace(dart, tip=between(mouth, dart.tip, (leg + short) / leg))


def without(paper: OnPaper, dart: OpenDart) -> tuple[Mark, ...]:
    """The marks of a piece but for one dart."""
    return tuple(m for m in paper.marks if m is not dart.mark)


def sewn_mm(paper: OnPaper, edge: str) -> float:
    """The length of an edge once its darts are sewn."""
    taken = sum(d.opens_mm for d in darts_of(paper) if d.edge == edge)
    return whole_mm(paper.edge(edge)) - taken


def opened(before: SewnEdge, tip: Point, after: SewnEdge) -> SewnEdge:
    """The bit of edge across a dart that opens between two parts of an edge.

    It runs out to a peak, so that the dart folded down (or to the middle) ends on the seam
    line: each half of it mirrors the line beside the dart.
    """
    first, last = before.path_mm[-1], after.path_mm[0]
    middle, wide = between(first, last), distance(first, last)
    upright = abs(last[0] - first[0]) > abs(last[1] - first[1])
    to_last = last[0] > first[0] if upright else abs(last[1]) < abs(first[1])
    leg, beside = (last, _beside(after.path_mm)) if to_last else (
        first, _beside(before.path_mm[::-1]))
    peak = crossing(leg, reflected(beside, leg, tip), middle, tip)
    if distance(peak, middle) > wide or distance(peak, tip) < distance(middle, tip) / 2:
        peak = middle
    return replace(
        before, path_mm=(first, peak, last), notches_mm=(), double_notches_mm=()
    )


def _beside(path: Path) -> Point:
    return along(path, min(BESIDE_MM, length(path)))
