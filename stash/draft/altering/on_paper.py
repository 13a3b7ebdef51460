"""A piece on the table: its named stitching lines and marks, one half of it where it is folded."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from shapely import LineString, Polygon
from shapely import Point as Place

from stash.draft.altering.corners import edges_at_corners
from stash.draft.cutting_line import FOLD, Edge
from stash.draft.geometry import Path, length, mirrored
from stash.draft.panel import SNIPS, Cutting, Panel
from stash.errors import InvalidInput
from stash.model import Mark, MarkKind, Piece, Point, SewnEdge

Move = Callable[[Point], Point]
NEAR_MM = 0.05  # a point this near a line lies on it: what the drawn outline is simplified by


@dataclass(frozen=True, kw_only=True)
class OnPaper:
    """A piece as it is worked on: ``edges`` close a ring on the stitching line.

    ``marks`` are those of the half where the piece is folded; ``one_side`` lie on the whole
    piece once. Snips are kept in the edges.
    """

    piece: Piece
    edges: tuple[SewnEdge, ...]
    marks: tuple[Mark, ...] = ()
    one_side: tuple[Mark, ...] = ()

    @classmethod
    def of(cls, piece: Piece) -> OnPaper:
        """The piece laid out; its edges are found at its corners where they have no names."""
        edges = piece.edges or edges_at_corners(piece)
        marks, one_side = _of_the_half(piece, edges)
        return cls(piece=piece, edges=edges, marks=marks, one_side=one_side)

    def edge(self, name: str) -> SewnEdge:
        """The edge of that name; InvalidInput names those there are."""
        found = next((e for e in self.edges if e.name == name), None)
        if found is None:
            known = tuple(e.name for e in self.edges if e.name != FOLD)
            raise InvalidInput(
                "piece_has_no_edge", piece=self.piece.name, typed=name, known=known, field="edge"
            )
        return found

    @property
    def ring(self) -> Path:
        """The stitching line, not closed; of the half where the piece is folded."""
        return tuple(p for e in self.edges for p in e.path_mm[:-1])

    @property
    def area_mm2(self) -> float:
        """What the stitching line encloses."""
        return float(Polygon(self.ring).area)

    @property
    def on_fold(self) -> bool:
        """True for a half."""
        return any(e.name == FOLD for e in self.edges) and self.piece.on_fold

    def made(self) -> Piece:
        """The piece with its allowances made again; InvalidInput when it cannot be cut so."""
        panel = Panel(
            name=self.piece.name, on_fold=self.on_fold, cutting=_cutting(self.piece),
            edges=tuple(
                Edge(e.name, e.path_mm, e.allowance_mm, e.turned) for e in self.edges
            ),
            notches=tuple((e.name, mm) for e in self.edges for mm in e.notches_mm),
            doubles=tuple((e.name, mm) for e in self.edges for mm in e.double_notches_mm),
            marks=self.marks, one_side=self.one_side,
            match=next(iter(self.piece.match_points_mm), None),
        )
        shape = Polygon(self.ring)
        if not shape.is_valid or shape.area < 1:
            raise InvalidInput("altered_piece_crosses", piece=self.piece.name, field="step")
        return panel.piece()

    def named(self, name: str) -> OnPaper:
        """The same, under another name."""
        return replace(self, piece=replace(self.piece, name=name))


def _cutting(piece: Piece) -> Cutting:
    return Cutting(
        quantity=piece.quantity, pair=piece.mirrored_pair, role=piece.role, part=piece.part,
        turns_deg=piece.turns_deg, grain_turn_deg=piece.grain_turn_deg,
    )


def moved_edge(edge: SewnEdge, move: Move) -> SewnEdge:
    """The edge somewhere else; its length and its snips stay."""
    return replace(edge, path_mm=tuple(map(move, edge.path_mm)))


def _of_the_half(
    piece: Piece, edges: Sequence[SewnEdge]
) -> tuple[tuple[Mark, ...], tuple[Mark, ...]]:
    """The marks of the half that is drawn, and those that lie on one side only."""
    marks = piece.marks or tuple(Mark(MarkKind.PLACE, m) for m in piece.marks_mm)
    plain = [m for m in marks if m.kind not in SNIPS]
    if not (piece.on_fold and any(e.name == FOLD for e in edges)):
        return tuple(plain), ()
    side = 1.0 if sum(y for e in edges for _, y in e.path_mm) > 0 else -1.0
    keys = {_key(m.kind, m.at_mm) for m in plain}
    kept, lone = [], []
    for mark in plain:
        if all(abs(y) < NEAR_MM for _, y in mark.at_mm):
            kept.append(mark)
        elif _key(mark.kind, mirrored(mark.at_mm)) not in keys:
            lone.append(mark)
        elif side * sum(y for _, y in mark.at_mm) > 0:
            kept.append(mark)
    return tuple(kept), tuple(lone)


def _key(kind: MarkKind, points: Sequence[Point]) -> tuple[object, ...]:
    return (kind, *((round(x, 2), round(y, 2) + 0.0) for x, y in points))


def reach(edge: SewnEdge, point: Point) -> float | None:
    """How far along an edge a point on it lies; None when it does not lie on it."""
    line = LineString(edge.path_mm)
    spot = Place(point)
    return float(line.project(spot)) if line.distance(spot) < NEAR_MM else None


def whole_mm(edge: SewnEdge) -> float:
    """The length of an edge's stitching line, darts and all."""
    return length(edge.path_mm)
