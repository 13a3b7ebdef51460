"""Marks brought along when a piece is parted: each goes with the part on which it lies."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import shapely
from shapely import LineString, Polygon
from shapely import Point as Place

from stash.draft.altering.on_paper import Move
from stash.draft.geometry import Path, mirrored
from stash.model import Mark, MarkKind

SHORT_MM = 1.0  # what is left of a line by so little is no mark
WHOLE = (MarkKind.DART, MarkKind.BUTTONHOLE, MarkKind.POCKET)


def parted(marks: Iterable[Mark], parts: Sequence[Path]) -> list[tuple[Mark, ...]]:
    """The marks of each part; a line that crosses from one part to another is parted too."""
    shapes = [Polygon(p).buffer(0.02) for p in parts]
    found: list[list[Mark]] = [[] for _ in parts]
    for mark in marks:
        if len(mark.at_mm) < 2 or mark.kind in WHOLE:
            found[_nearest(shapes, mark)].append(mark)
            continue
        for place, shape in enumerate(shapes):
            found[place].extend(_within(mark, shape))
    return [tuple(each) for each in found]


def moved_mark(mark: Mark, move: Move) -> Mark:
    """The mark somewhere else."""
    return replace(mark, at_mm=tuple(map(move, mark.at_mm)))


def moved_marks(
    marks: Sequence[Mark], parts: Sequence[Path], moves: Sequence[Move]
) -> tuple[Mark, ...]:
    """All the marks, each moved as its part is."""
    return tuple(
        moved_mark(mark, move)
        for each, move in zip(parted(marks, parts), moves, strict=True) for mark in each
    )


def moved_one_side(
    marks: Sequence[Mark], parts: Sequence[Path], moves: Sequence[Move]
) -> tuple[Mark, ...]:
    """The same for what lies on one side of a fold; the far side moves as the near one does."""
    side = 1.0 if sum(y for part in parts for _, y in part) > 0 else -1.0
    near = [m for m in marks if side * sum(y for _, y in m.at_mm) >= 0]
    far = [replace(m, at_mm=mirrored(m.at_mm)) for m in marks if m not in near]
    done = moved_marks(far, parts, moves)
    return (
        *moved_marks(near, parts, moves), *(replace(m, at_mm=mirrored(m.at_mm)) for m in done)
    )


def _nearest(shapes: Sequence[Polygon], mark: Mark) -> int:
    """The part that holds the mark's middle."""
    xs, ys = zip(*mark.at_mm, strict=True)
    middle = Place(sum(xs) / len(xs), sum(ys) / len(ys))
    return min(range(len(shapes)), key=lambda i: float(shapes[i].distance(middle)))


def _within(mark: Mark, shape: Polygon) -> Iterable[Mark]:
    inside = shapely.intersection(LineString(mark.at_mm), shape)
    for part in shapely.get_parts(inside):
        if isinstance(part, LineString) and part.length > SHORT_MM:
            points = tuple((float(x), float(y)) for x, y in part.coords)
            yield replace(mark, at_mm=_as_drawn(mark.at_mm, points))


def _as_drawn(original: Path, points: Path) -> Path:
    """The points in the order in which the line was drawn."""
    line = LineString(original)
    forwards = line.project(Place(points[0])) <= line.project(Place(points[-1]))
    return points if forwards else points[::-1]
