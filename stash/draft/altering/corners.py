"""The edges of a piece that came without names: its stitching line parted at its corners."""

from __future__ import annotations

from collections.abc import Sequence
from math import acos, degrees

from shapely import LineString, Polygon, box
from shapely import Point as Place

from stash.draft.cutting_line import FOLD
from stash.draft.geometry import Path, along, distance, length
from stash.model import Mark, MarkKind, Piece, Point, SewnEdge

CORNER_DEG = 25.0  # a line that turns more than this has a corner: chosen here
SNIP_MM = 30.0  # a notch lies within an allowance of the line it belongs to


def edges_at_corners(piece: Piece) -> tuple[SewnEdge, ...]:
    """Edges numbered the way the line runs, the fold by its name where the piece has one."""
    ring = piece.stitch_mm or piece.outline_mm
    if piece.on_fold:
        ring = _half(ring)
    paths = _parted(ring)
    outline = LineString([*piece.outline_mm, piece.outline_mm[0]])
    edges, number = [], 0
    for path in paths:
        if piece.on_fold and all(abs(y) < 1e-3 for _, y in path):
            edges.append(SewnEdge(name=FOLD, path_mm=path))
            continue
        number += 1
        middle = Place(along(path, length(path) / 2))
        allowed = round(float(outline.distance(middle)), 2) if piece.stitch_mm else 0.0
        edges.append(SewnEdge(name=f"edge {number}", path_mm=path, allowance_mm=allowed))
    return _snipped(edges, piece)


def _half(ring: Sequence[Point]) -> Path:
    """The half of a folded piece's line that lies on the side of y above 0."""
    whole = Polygon(ring)
    x0, _, x1, y1 = whole.bounds
    half = whole.intersection(box(x0 - 1, 0, x1 + 1, y1 + 1))
    parts = getattr(half, "geoms", [half])
    best = max(parts, key=lambda p: float(p.area))
    return tuple((float(x), float(y)) for x, y in best.exterior.coords[:-1])


def _parted(ring: Sequence[Point]) -> list[Path]:
    """The ring parted at its corners; four equal parts of a line without any."""
    count = len(ring)
    corners = [i for i in range(count) if _turn_deg(ring, i) > CORNER_DEG]
    if len(corners) < 2:
        corners = sorted({i * count // 4 for i in range(4)})
    closed = list(ring)
    paths = []
    for a, b in zip(corners, [*corners[1:], corners[0] + count], strict=True):
        paths.append(tuple(closed[i % count] for i in range(a, b + 1)))
    return paths


def _turn_deg(ring: Sequence[Point], i: int) -> float:
    (x0, y0), (x1, y1), (x2, y2) = ring[i - 1], ring[i], ring[(i + 1) % len(ring)]
    a, b = distance((x0, y0), (x1, y1)), distance((x1, y1), (x2, y2))
    if not a or not b:
        return 0.0
    along_ = ((x1 - x0) * (x2 - x1) + (y1 - y0) * (y2 - y1)) / (a * b)
    return degrees(acos(min(1.0, max(-1.0, along_))))


def _snipped(edges: Sequence[SewnEdge], piece: Piece) -> tuple[SewnEdge, ...]:
    """The edges with the notches that lie beside them."""
    snips = [
        (p, m.kind is MarkKind.DOUBLE_NOTCH) for m in piece.marks if _is_snip(m)
        for p in m.at_mm[:1]
    ] or [(p, False) for p in piece.notches_mm]
    if piece.on_fold:
        snips = [(p, double) for p, double in snips if p[1] > -1e-3]
    found: dict[int, list[tuple[float, bool]]] = {}
    for point, double in snips:
        spot = Place(point)
        lines = [LineString(e.path_mm) for e in edges]
        near = min(range(len(edges)), key=lambda i: float(lines[i].distance(spot)))
        if lines[near].distance(spot) < SNIP_MM:
            found.setdefault(near, []).append((float(lines[near].project(spot)), double))
    return tuple(
        SewnEdge(
            name=e.name, path_mm=e.path_mm, allowance_mm=e.allowance_mm, turned=e.turned,
            notches_mm=tuple(mm for mm, double in found.get(i, []) if not double),
            double_notches_mm=tuple(mm for mm, double in found.get(i, []) if double),
        )
        for i, e in enumerate(edges)
    )


def _is_snip(mark: Mark) -> bool:
    return mark.kind in (MarkKind.NOTCH, MarkKind.DOUBLE_NOTCH)
