"""A piece drawn to be pointed at, and where a tap on the drawing lies on the piece."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from math import hypot

from stash.model import MarkKind, Piece, Point, Underlay

BESIDE_MM = 25.0
WIDE_PX, TALL_PX, MARGIN_PX = 300.0, 480.0, 14.0
INK, QUIET, FOLD, PAPER = "#24323d", "#6b6f9c", "#a8572a", "#f7f4ec"


@dataclass(frozen=True)
class PointingView:
    """A piece upright on a small picture, its grain running down it, always at one scale."""

    piece: Piece

    @property
    def px_per_mm(self) -> float:
        """The scale at which the piece fits the picture."""
        _, _, long, wide = self._box
        return min((WIDE_PX - 2 * MARGIN_PX) / wide, (TALL_PX - 2 * MARGIN_PX) / long)

    @property
    def size_px(self) -> tuple[int, int]:
        """Width and height of the picture."""
        _, _, long, wide = self._box
        scale = self.px_per_mm
        return round(wide * scale + 2 * MARGIN_PX), round(long * scale + 2 * MARGIN_PX)

    @property
    def _box(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self.piece.outline_mm, strict=True)
        return min(xs), min(ys), max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)

    def from_corner_mm(self, right_px: float, down_px: float) -> Point:
        """How far down from the top and across from the left a tap lies, mm."""
        scale = self.px_per_mm
        return (down_px - MARGIN_PX) / scale, (right_px - MARGIN_PX) / scale

    def to_px(self, point: Point) -> Point:
        """Where a point of the piece lies on the picture."""
        top, left, _, _ = self._box
        scale = self.px_per_mm
        return (point[1] - left) * scale + MARGIN_PX, (point[0] - top) * scale + MARGIN_PX

    @property
    def under_matrix(self) -> str:
        """Where the photograph lies on the picture, as the matrix of a square of one; or ""."""
        under = self.piece.under
        return matrix_onto(*map(self.to_px, under.corners_mm)) if under else ""

    def svg(self) -> str:
        """The picture, as large as it says."""
        wide, tall = self.size_px
        lines = [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{tall}" '
            f'viewBox="0 0 {wide} {tall}" role="img">',
            f"<title>{escape(self.piece.name)}</title>",
            *self._outline(),
        ]
        if self.piece.stitch_mm:
            dashed = 'stroke-width="0.8" stroke-dasharray="5 3"'
            lines.append(self._path(self.piece.stitch_mm, INK, dashed, closed=True))
        lines += [*self._marks(), "</svg>"]
        return "\n".join(lines) + "\n"

    def _outline(self) -> Iterable[str]:
        """The cutting line; over a photograph, dark or light, with a light rim and no paper."""
        ring = self.piece.outline_mm
        if self.piece.under:
            yield self._path(ring, PAPER, 'stroke-width="4" stroke-opacity="0.85"', closed=True)
        fill = "none" if self.piece.under else PAPER
        yield self._path(ring, INK, 'stroke-width="1.6"', fill, closed=True)

    def _marks(self) -> Iterable[str]:
        """The fold, the lines on the piece, and a dot at each notch and point."""
        top, _, long, _ = self._box
        if self.piece.on_fold:
            dashes = 'stroke-width="1.2" stroke-dasharray="9 3 2 3"'
            yield self._path(((top, 0.0), (top + long, 0.0)), FOLD, dashes)
        marks = self.piece.marks or ()
        for line in [m.at_mm for m in marks] if marks else self.piece.marks_mm:
            if len(line) > 1:
                yield self._path(line, QUIET, 'stroke-width="1" stroke-dasharray="3 3"')
        points = [m.at_mm[0] for m in marks if m.kind is MarkKind.PLACE and len(m.at_mm) == 1]
        for point in (*self.piece.notches_mm, *points):
            x, y = self.to_px(point)
            yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{INK}"/>'

    def _path(
        self, points: Iterable[Point], colour: str, pen: str, fill: str = "none", *,
        closed: bool = False,
    ) -> str:
        steps = " L".join(f"{x:.1f},{y:.1f}" for x, y in map(self.to_px, points))
        end = " Z" if closed else ""
        return f'<path d="M{steps}{end}" fill="{fill}" stroke="{colour}" {pen}/>'


@dataclass(frozen=True)
class OutlineView:
    """A ring drawn upright in millimetres, to be dragged: across is x, down is y."""

    ring_mm: tuple[Point, ...]
    under: Underlay | None = None
    notches_mm: tuple[Point, ...] = ()

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, width and height of what is shown, with a little around it."""
        down, across = zip(*self.ring_mm, strict=True)
        return (min(across) - BESIDE_MM, min(down) - BESIDE_MM,
                max(across) - min(across) + 2 * BESIDE_MM, max(down) - min(down) + 2 * BESIDE_MM)

    @property
    def under_matrix(self) -> str:
        """Where the photograph lies, as the matrix of a square of one; or ""."""
        return matrix_onto(*((y, x) for x, y in self.under.corners_mm)) if self.under else ""


def matrix_onto(upper_left: Point, upper_right: Point, lower_left: Point) -> str:
    """The SVG matrix that lays a square of one onto these corners."""
    (x0, y0), (x1, y1), (x2, y2) = upper_left, upper_right, lower_left
    steps = (x1 - x0, y1 - y0, x2 - x0, y2 - y0, x0, y0)
    return f"matrix({' '.join(f'{step:.3f}' for step in steps)})"


def placed(piece: Piece, from_corner_mm: Point) -> Point:
    """The point so far down from the top of a piece and across from its left side."""
    xs, ys = zip(*piece.outline_mm, strict=True)
    return min(xs) + from_corner_mm[0], min(ys) + from_corner_mm[1]


def edge_near(piece: Piece, point: Point) -> tuple[Point, Point]:
    """The straight bit of the outline nearest to a point."""
    ring = piece.outline_mm
    edges = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    return min(edges, key=lambda edge: _off(point, edge))


def on_outline(piece: Piece, point: Point) -> Point:
    """The point of the outline nearest to a point."""
    return _nearest(point, edge_near(piece, point))


def _off(point: Point, edge: tuple[Point, Point]) -> float:
    x, y = _nearest(point, edge)
    return hypot(x - point[0], y - point[1])


def _nearest(point: Point, edge: tuple[Point, Point]) -> Point:
    (x0, y0), (x1, y1) = edge
    dx, dy = x1 - x0, y1 - y0
    size = dx * dx + dy * dy
    share = ((point[0] - x0) * dx + (point[1] - y0) * dy) / size if size else 0.0
    share = min(1.0, max(0.0, share))
    return x0 + share * dx, y0 + share * dy
