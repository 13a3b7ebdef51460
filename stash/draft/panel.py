"""A piece on the drafting paper: named edges round it, notches, marks; and its Piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shapely import LinearRing
from shapely import Point as Place

from stash.draft.cutting_line import FOLD, Edge, cutting_line
from stash.draft.geometry import Path, along, distance, length, mirrored
from stash.model import Joined, Mark, MarkKind, Part, Piece, Point, Role, SewnEdge


@dataclass(frozen=True, kw_only=True)
class Cutting:
    """How many times a panel is cut, from what, and which ways it may lie.

    ``pair`` cuts half of them mirrored; ``part`` is what they are of the garment.
    """

    quantity: int = 1
    pair: bool = False
    role: Role = Role.MAIN
    part: Part = Part.BODY
    turns_deg: tuple[float, ...] = (0.0, 180.0)
    grain_turn_deg: float = 0.0


ONCE = Cutting()
SNIPS = (MarkKind.NOTCH, MarkKind.DOUBLE_NOTCH)
DOUBLE_MM = 8.0  # apart: common practice, no source


@dataclass(frozen=True, kw_only=True)
class Panel:
    """One drafted panel; its edges in order close a ring on the stitching line.

    With ``on_fold`` the panel is one half: it has an edge named ``fold`` along y = 0,
    and the piece is opened out about it. ``notches`` and ``doubles`` are (edge name, mm
    along it): one snip, or two that tell a back; ``marks`` are drawn inside the piece
    (``one_side`` those that are not mirrored in a fold). ``match`` is the point that lies on
    the repeat of a print or stripe, so that seams that meet match.
    """

    name: str
    edges: tuple[Edge, ...]
    cutting: Cutting = ONCE
    on_fold: bool = False
    notches: tuple[tuple[str, float], ...] = ()
    doubles: tuple[tuple[str, float], ...] = ()
    marks: tuple[Mark, ...] = ()
    one_side: tuple[Mark, ...] = ()
    match: Point | None = None

    def edge(self, name: str) -> Edge:
        """The edge of that name."""
        return next(e for e in self.edges if e.name == name)

    def length(self, name: str) -> float:
        """Length of the stitching line of one edge (half of it on a half panel), mm."""
        return length(self.edge(name).path)

    def stitching_line(self) -> Path:
        """The ring of stitching lines, opened out, not closed."""
        return self._opened([e.path for e in self.edges if not self._is_fold(e)])

    def piece(self) -> Piece:
        """The piece to lay and cut: allowances in, opened out."""
        outline = cutting_line(self.edges)
        if self.on_fold:
            outline = _open_out(outline)
        marks = (*self._snips(LinearRing(outline)), *self.marks)
        if self.on_fold:
            marks += tuple(
                replace(m, at_mm=mirrored(m.at_mm)) for m in marks
                if any(abs(y) > 1e-6 for _, y in m.at_mm)
            )
        marks += self.one_side
        return Piece(
            name=self.name,
            outline_mm=outline,
            quantity=self.cutting.quantity,
            mirrored_pair=self.cutting.pair,
            on_fold=self.on_fold,
            role=self.cutting.role,
            part=self.cutting.part,
            stitch_mm=self.stitching_line(),
            notches_mm=tuple(p for m in marks if m.kind in SNIPS for p in m.at_mm),
            marks_mm=tuple(m.at_mm for m in marks if m.kind not in SNIPS),
            marks=marks,
            allowances_mm=self._allowed(),
            edges=self._named(),
            match_points_mm=(self.match,) if self.match else (),
            turns_deg=self.cutting.turns_deg,
            grain_turn_deg=self.cutting.grain_turn_deg,
        )

    def _snips(self, ring: LinearRing) -> list[Mark]:
        """The notches, where they are snipped in the cut edge."""

        def at(edge: str, mm: float) -> Point:
            return _snip(along(self.edge(edge).path, mm), ring)

        single = [Mark(MarkKind.NOTCH, (at(e, mm),)) for e, mm in self.notches]
        double = [
            Mark(MarkKind.DOUBLE_NOTCH, (at(e, mm), at(e, mm + DOUBLE_MM)))
            for e, mm in self.doubles
        ]
        return single + double

    def _allowed(self) -> tuple[tuple[str, float], ...]:
        """What is allowed beyond each edge, each edge once."""
        return tuple({e.name: e.allowance_mm for e in self.edges if e.name != FOLD}.items())

    def _named(self) -> tuple[SewnEdge, ...]:
        """The edges as the piece remembers them."""
        return tuple(
            SewnEdge(
                name=e.name, path_mm=e.path, allowance_mm=e.allowance_mm, turned=e.turned,
                notches_mm=tuple(mm for name, mm in self.notches if name == e.name),
                double_notches_mm=tuple(mm for name, mm in self.doubles if name == e.name),
            )
            for e in self.edges
        )

    def marked(
        self, marks: Sequence[Mark], *, notches: Sequence[tuple[str, float]] = ()
    ) -> Panel:
        """The panel with more to carry over to the cloth."""
        return replace(
            self, marks=(*self.marks, *marks), notches=(*self.notches, *notches)
        )

    def fused(self, name: str, quantity: int, *, pair: bool = False) -> Panel:
        """The same shape cut from interfacing."""
        return replace(
            self,
            name=name,
            cutting=Cutting(
                quantity=quantity, pair=pair, role=Role.INTERFACING, part=self.cutting.part
            ),
            notches=(),
            doubles=(),
            marks=(),
            one_side=(),
            match=None,
        )

    def _is_fold(self, edge: Edge) -> bool:
        return self.on_fold and edge.name == FOLD

    def _opened(self, paths: Sequence[Path]) -> Path:
        if not self.on_fold:
            return tuple(p for path in paths for p in path[:-1])
        start = next(i for i, e in enumerate(self.edges) if self._is_fold(e)) + 1
        half: list[Point] = []
        for e in [*self.edges[start:], *self.edges[: start - 1]]:
            half.extend(p for p in e.path if not half or distance(p, half[-1]) > 1e-6)
        return _whole(half)


def _whole(half: Sequence[Point]) -> Path:
    """A half line from the fold round to the fold, and its mirror image."""
    other = [(x, -y) for x, y in reversed(half) if abs(y) > 1e-6]
    return tuple(half) + tuple(other)


def _open_out(ring: Path) -> Path:
    """Mirror a half outline that touches y = 0 along its fold."""
    count = len(ring)
    on_line = [abs(y) < 1e-6 for _, y in ring]
    start = next(i for i in range(count) if on_line[i] and not on_line[(i + 1) % count])
    walk = [ring[(start + i) % count] for i in range(count)]
    end = next(i for i in range(1, count) if abs(walk[i][1]) < 1e-6)
    return _whole([(x, 0.0 if abs(y) < 1e-6 else y) for x, y in walk[: end + 1]])


def _snip(point: Point, ring: LinearRing) -> Point:
    """Where a notch on the stitching line is snipped in the cut edge."""
    near = ring.interpolate(ring.project(Place(point)))
    return near.x, near.y


def strip(name: str, length_mm: float, width_mm: float, cutting: Cutting = ONCE) -> Panel:
    """A straight strip, seams already counted in: a band, a belt, a tie, a loop."""
    a, b, c, d = (0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm)
    sides = (("long", (a, b)), ("end", (b, c)), ("other long", (c, d)), ("other end", (d, a)))
    edges = tuple(Edge(side, path) for side, path in sides)
    return Panel(name=name, edges=edges, cutting=cutting)


def line_mark(kind: MarkKind, *points: Point) -> Mark:
    """A line to carry over to the cloth, or a point."""
    return Mark(kind, points)


def joined(a: tuple[Panel, str], b: tuple[Panel, str]) -> Joined:
    """Two edges sewn together, at the lengths of their stitching lines."""
    (one, edge), (other, its) = a, b
    return Joined((one.name, edge), (other.name, its), one.length(edge), other.length(its))
