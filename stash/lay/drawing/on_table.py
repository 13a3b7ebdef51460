"""The lay as it lies on the table: one layer seen, what lies beneath it seen through.

On folded cloth a copy and its mirror image beneath are one cut of the scissors. Lengthwise
the fold is at y = 0 and the selvedges lie above it; crosswise x is the cloth's own, and the
fold is at the end.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import cast

from shapely import LineString, Polygon, affinity, box, union_all
from shapely.geometry.base import BaseGeometry

from stash.lay.check import placed_polygon
from stash.lay.task import LayTask
from stash.model import Lay, Piece, Placement, Spread

FAR_MM = 1e7
ALIKE_MM = 0.1  # copies one beneath another may lie so far apart and still be cut as one


class Layers(StrEnum):
    """Through which layers of the cloth a piece is cut."""

    ONE = "one layer"
    BOTH = "cut double"
    UPPER = "upper layer only"
    LOWER = "lower layer only"
    ON_FOLD = "on the fold"


@dataclass(frozen=True)
class CutOut:
    """One cut of the scissors: the piece, its copies' numbers, where it is seen to lie.

    ``seen`` is the placement as it looks from above (of a copy beneath: through the cloth),
    ``shape`` the outline to cut along, half of a piece on the fold.
    """

    piece: Piece
    copies: tuple[int, ...]
    seen: Placement
    shape: Polygon
    layers: Layers

    @property
    def numbers(self) -> str:
        """Of several copies their numbers, ``1 + 2``; nothing where there is one."""
        return "" if self.piece.quantity == 1 else " + ".join(map(str, self.copies))

    @property
    def label(self) -> str:
        """The piece's name, and of several copies their numbers: front 1 + 2."""
        return f"{self.piece.name} {self.numbers}".rstrip()


@dataclass(frozen=True)
class OnTable:
    """The cut-outs, and the cloth: its upper layer, and the lower one when it is folded."""

    spread: Spread
    cut_outs: tuple[CutOut, ...]
    upper: BaseGeometry
    lower: BaseGeometry | None
    shift_mm: float  # across, from the opened-out cloth

    @property
    def cloth(self) -> BaseGeometry:
        """Everything that is seen of the cloth."""
        return self.upper if self.lower is None else union_all([self.upper, self.lower])


def on_table(task: LayTask, lay: Lay) -> OnTable:
    """What lies on the table, and what is cut there."""
    pieces = {p.name: p for p in task.pieces}
    own = [_cut_out(pieces[p.piece.rpartition("#")[0]], p, lay) for p in lay.placements]
    cloth = _cloth(task, lay)
    if lay.fold_mm is None:
        return OnTable(lay.spread, tuple(own), cloth, None, 0.0)
    upper, lower = _layers(cloth, lay, lay.fold_mm)
    across = -lay.fold_mm if lay.spread is Spread.LENGTHWISE else 0.0
    return OnTable(lay.spread, tuple(_together(own)), upper, lower, across)


def selvedges_seen(task: LayTask, lay: Lay) -> list[tuple[BaseGeometry, Layers]]:
    """The edges known to be selvedge as they are seen, and the layer that each is an edge of."""
    found: list[tuple[BaseGeometry, Layers]] = []
    for line in map(LineString, task.selvedges_mm):
        if lay.fold_mm is None:
            found.append((line, Layers.ONE))
        else:
            found += zip(_layers(line, lay, lay.fold_mm), (Layers.UPPER, Layers.LOWER), strict=True)
    return found


def cuts_of_the_scissors(task: LayTask, lay: Lay) -> int:
    """How many outlines are cut along."""
    return len(on_table(task, lay).cut_outs)


def _cloth(task: LayTask, lay: Lay) -> Polygon:
    """The cut; of a plain one folded crosswise, the length that is laid."""
    if task.cloth is None:
        return box(0, 0, lay.length_mm, task.width_mm or lay.width_mm)
    cloth = Polygon(task.cloth.ring_mm, task.cloth.holes_mm)
    left, low, _, high = cloth.bounds
    plain = cloth.area >= (1 - 1e-9) * cloth.envelope.area
    if lay.spread is Spread.CROSSWISE and plain:
        return box(left, low, lay.length_mm, high)
    return cloth


def _layers(cloth: BaseGeometry, lay: Lay, fold_mm: float) -> tuple[BaseGeometry, BaseGeometry]:
    if lay.spread is Spread.LENGTHWISE:
        upper = cloth.intersection(box(-FAR_MM, fold_mm, FAR_MM, FAR_MM))
        lower = cloth.intersection(box(-FAR_MM, -FAR_MM, FAR_MM, fold_mm))
    else:
        upper = cloth.intersection(box(-FAR_MM, -FAR_MM, fold_mm, FAR_MM))
        lower = cloth.intersection(box(fold_mm, -FAR_MM, FAR_MM, FAR_MM))
    return _seen_shape(upper, lay, fold_mm, under=False), _seen_shape(
        lower, lay, fold_mm, under=True
    )


def _seen_shape(shape: BaseGeometry, lay: Lay, fold_mm: float, *, under: bool) -> BaseGeometry:
    if lay.spread is Spread.LENGTHWISE:
        moved = affinity.translate(shape, 0, -fold_mm)
        return affinity.scale(moved, 1, -1, origin=(0, 0)) if under else moved
    return affinity.scale(shape, -1, 1, origin=(fold_mm, 0)) if under else shape


def _cut_out(piece: Piece, p: Placement, lay: Lay) -> CutOut:
    shape, copy = placed_polygon(piece, p), (int(p.piece.rpartition("#")[2]),)
    if lay.fold_mm is None:
        return CutOut(piece, copy, p, shape, Layers.ONE)
    axis = 1 if lay.spread is Spread.LENGTHWISE else 0
    low, high = shape.bounds[axis], shape.bounds[axis + 2]
    if low < lay.fold_mm - ALIKE_MM and high > lay.fold_mm + ALIKE_MM:
        half = _seen_shape(shape, lay, lay.fold_mm, under=False)
        half = half.intersection(box(-FAR_MM, 0, FAR_MM, FAR_MM))
        seen = _seen(p, lay, under=False)
        return CutOut(piece, copy, seen, cast(Polygon, half), Layers.ON_FOLD)
    under = (low + high) / 2 < lay.fold_mm if axis else (low + high) / 2 > lay.fold_mm
    as_seen = cast(Polygon, _seen_shape(shape, lay, lay.fold_mm, under=under))
    layers = Layers.LOWER if under else Layers.UPPER
    return CutOut(piece, copy, _seen(p, lay, under=under), as_seen, layers)


def _seen(p: Placement, lay: Lay, *, under: bool) -> Placement:
    """The placement on the table: beneath, mirrored about the fold."""
    fold = lay.fold_mm or 0.0
    if lay.spread is Spread.LENGTHWISE:
        if not under:
            return replace(p, y_mm=p.y_mm - fold)
        return replace(
            p, y_mm=fold - p.y_mm, turn_deg=-p.turn_deg % 360, mirrored=not p.mirrored
        )
    if not under:
        return p
    return replace(
        p, x_mm=2 * fold - p.x_mm, turn_deg=(180 - p.turn_deg) % 360, mirrored=not p.mirrored
    )


def _together(own: list[CutOut]) -> list[CutOut]:
    """Copies of a piece that lie exactly one beneath another, as one cut."""
    beneath = [c for c in own if c.layers is Layers.LOWER]
    cut: list[CutOut] = []
    for c in own:
        if c.layers is Layers.LOWER:
            continue
        twin = next((b for b in beneath if c.layers is Layers.UPPER and _alike(c, b)), None)
        if twin is None:
            cut.append(c)
        else:
            beneath.remove(twin)
            copies = tuple(sorted(c.copies + twin.copies))
            cut.append(replace(c, copies=copies, layers=Layers.BOTH))
    return cut + beneath


def _alike(a: CutOut, b: CutOut) -> bool:
    if a.piece.name != b.piece.name:
        return False
    apart = a.shape.symmetric_difference(b.shape).area
    return bool(apart <= ALIKE_MM * a.shape.length)
