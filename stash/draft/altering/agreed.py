"""What must agree after an alteration, proved: lengths to a tenth of a millimetre, areas too."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString, Polygon
from shapely import Point as Place

from stash.draft.altering.edge_darts import OpenDart, darts_of, sewn_mm
from stash.draft.altering.facing import INNER
from stash.draft.altering.on_paper import OnPaper, whole_mm
from stash.draft.cutting_line import FOLD
from stash.errors import InvalidInput
from stash.fact import Fact, Term, fact
from stash.model import Point

LENGTH_MM = 0.1
AREA_SHARE = 1e-6  # of the piece: what reckoning with floats may lose
AREA_MM2 = 1.0


@dataclass(frozen=True)
class Agreed:
    """Two figures that must be one: what they are, each of them, and how far apart they may be."""

    what: Fact
    one: float
    other: float
    within: float

    @property
    def holds(self) -> bool:
        """True when they agree."""
        return abs(self.one - self.other) <= self.within


def held(proofs: Sequence[Agreed]) -> tuple[Agreed, ...]:
    """The proofs; InvalidInput when one of them fails, so that nothing inexact is kept."""
    for proof in proofs:
        if not proof.holds:
            raise InvalidInput("alteration_disagrees", what=proof.what, apart=round(
                abs(proof.one - proof.other), 2), field="step")
    return tuple(proofs)


def edge_kept(before: OnPaper, after: OnPaper, edge: str, grown_mm: float = 0.0) -> Agreed:
    """An edge is as long when sewn as it was, or longer by just so much."""
    was, now = sewn_mm(before, edge), sewn_mm(after, edge)
    said = fact(
        "edge_grew" if grown_mm else "edge_kept", piece=before.piece.name, edge=Term(edge),
        sewn_measure_mm=now, by_measure_mm=grown_mm,
    )
    return Agreed(said, now, was + grown_mm, LENGTH_MM)


def edges_kept(before: OnPaper, after: OnPaper, but: Sequence[str] = ()) -> list[Agreed]:
    """Every edge but these is as long when sewn as it was."""
    return [
        edge_kept(before, after, e.name) for e in before.edges
        if e.name not in (*but, FOLD)
    ]


def outside_darts_mm2(paper: OnPaper) -> float:
    """The paper of a piece without the wedges of its darts."""
    return paper.area_mm2 - sum(d.wedge_mm2(paper) for d in darts_of(paper))


def area_kept(
    before: OnPaper, after: Sequence[OnPaper], added_mm2: float = 0.0
) -> Agreed:
    """Outside the darts there is as much paper as before, and just so much more."""
    was = outside_darts_mm2(before)
    now = sum(map(outside_darts_mm2, after))
    said = fact("area_accounted", piece=before.piece.name, area_mm2=now, added_mm2=added_mm2)
    return Agreed(said, now, was + added_mm2, AREA_MM2 + AREA_SHARE * was)


def legs_agree(paper: OnPaper, dart: OpenDart) -> Agreed:
    """A dart's legs are equally long."""
    one, other = _apart(dart.first, dart.tip), _apart(dart.last, dart.tip)
    said = fact("legs_agree", piece=paper.piece.name, edge=Term(dart.edge), leg_measure_mm=one)
    return Agreed(said, one, other, LENGTH_MM)


def seam_agrees(one: OnPaper, other: OnPaper, seam: str) -> Agreed:
    """Both sides of a new seam are equally long."""
    a, b = whole_mm(one.edge(seam)), whole_mm(other.edge(seam))
    said = fact(
        "seam_agrees", piece=one.piece.name, other=other.piece.name, seam_measure_mm=a
    )
    return Agreed(said, a, b, LENGTH_MM)


def parts_agree(before: OnPaper, parts: Sequence[OnPaper], edge: str) -> Agreed:
    """What an edge was parted into is together as long as it was."""
    names = [[e.name for e in p.edges] for p in parts]
    now = sum(
        sewn_mm(p, edge) for p, known in zip(parts, names, strict=True) if edge in known
    )
    said = fact("edge_kept", piece=before.piece.name, edge=Term(edge), sewn_measure_mm=now,
                by_measure_mm=0.0)
    return Agreed(said, now, sewn_mm(before, edge), LENGTH_MM)


def facing_agrees(paper: OnPaper, faced: OnPaper, edge: str, width_mm: float) -> list[Agreed]:
    """A facing's edge is the piece's as sewn; its inner line lies at the width everywhere."""
    outer = LineString(faced.edge(edge).path_mm)
    off = [float(outer.distance(Place(p))) for p in faced.edge(INNER).path_mm]
    said = fact("facing_width", piece=faced.piece.name, width_measure_mm=width_mm)
    kept = fact("edge_kept", piece=faced.piece.name, edge=Term(edge),
                sewn_measure_mm=float(outer.length), by_measure_mm=0.0)
    return [
        Agreed(kept, float(outer.length), sewn_mm(paper, edge), LENGTH_MM),
        Agreed(said, min(off), width_mm, LENGTH_MM), Agreed(said, max(off), width_mm, LENGTH_MM),
    ]


def wedge_mm2(first: Point, tip: Point, last: Point) -> float:
    """The triangle that opens at a slash."""
    return float(Polygon((first, tip, last)).area)


def _apart(a: Point, b: Point) -> float:
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)
