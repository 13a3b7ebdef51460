"""How the cloth lies on the table: one or two layers in one working frame.

Open: the cloth itself. Folded lengthwise at y = fold: layer 1 is the cloth above the
fold, layer 2 the cloth below it, mirrored up onto it; working y is measured from the
fold. Folded crosswise at x = fold: layer 1 is the cloth from its beginning to the fold,
layer 2 the rest, mirrored back onto it; working x is the cloth's own.
"""

from __future__ import annotations

from dataclasses import dataclass

from shapely import Polygon, affinity, box, union_all
from shapely.geometry.base import BaseGeometry

from stash.errors import InvalidInput
from stash.lay.task import LayTask
from stash.model import Outline, Spread

FIRST, SECOND, BOTH = 1, 2, 3


@dataclass(frozen=True)
class SpreadCloth:
    """Usable cloth by layer (edge margin taken off), and where the fold lies in the cloth."""

    spread: Spread
    layers: tuple[BaseGeometry, ...]
    fold_mm: float | None = None

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Box round all layers, in the working frame."""
        return union_all(self.layers).bounds


def cloth_polygon(outline: Outline) -> Polygon:
    """The cut as a polygon, flaws as holes; InvalidInput when it is no simple shape."""
    polygon = Polygon(outline.ring_mm, outline.holes_mm)
    if not polygon.is_valid or polygon.area <= 0:
        raise InvalidInput("cloth_outline_unsound")
    return polygon


def cloth_of(task: LayTask, longest_mm: float) -> Polygon:
    """The task's cloth, or a strip of its width long enough for anything."""
    if task.cloth is not None:
        return cloth_polygon(task.cloth)
    return box(0.0, 0.0, longest_mm + 2 * task.edge_mm, task.width_mm or 0.0)


def spread_open(cloth: Polygon, edge_mm: float) -> SpreadCloth:
    """A single layer."""
    return SpreadCloth(Spread.OPEN, (_without_edge(cloth, edge_mm),))


def spread_lengthwise(cloth: Polygon, edge_mm: float, fold_mm: float) -> SpreadCloth:
    """Folded along the grain at y = ``fold_mm``; a fold off the middle leaves part single."""
    usable = affinity.translate(_without_edge(cloth, edge_mm), 0, -fold_mm)
    far = _far(usable)
    above = usable.intersection(box(-far, 0, far, far))
    below = usable.intersection(box(-far, -far, far, 0))
    folded = affinity.scale(below, 1, -1, origin=(0, 0))
    return SpreadCloth(Spread.LENGTHWISE, (above, folded), fold_mm)


def spread_crosswise(cloth: Polygon, edge_mm: float, fold_mm: float) -> SpreadCloth:
    """Folded across the grain at x = ``fold_mm``."""
    usable = _without_edge(cloth, edge_mm)
    far = _far(usable)
    first = usable.intersection(box(-far, -far, fold_mm, far))
    second = usable.intersection(box(fold_mm, -far, far, far))
    turned = affinity.translate(affinity.scale(second, -1, 1, origin=(0, 0)), 2 * fold_mm, 0)
    return SpreadCloth(Spread.CROSSWISE, (first, turned), fold_mm)


def obstacles(sheet: SpreadCloth) -> list[tuple[Polygon, int]]:
    """Where no piece may lie within the box of the sheet, with the layers it blocks."""
    frame = box(*sheet.bounds_mm)
    blocked = [frame.difference(layer) for layer in sheet.layers]
    if len(blocked) == 2 and blocked[0].symmetric_difference(blocked[1]).area < 1.0:
        return [(part, BOTH) for part in _polygons(blocked[0])]
    return [(part, 1 << k) for k, region in enumerate(blocked) for part in _polygons(region)]


def _polygons(region: BaseGeometry) -> list[Polygon]:
    parts = getattr(region, "geoms", [region])
    return [p for p in parts if isinstance(p, Polygon) and p.area > 1e-3]


def _without_edge(cloth: Polygon, edge_mm: float) -> BaseGeometry:
    return cloth.buffer(-edge_mm, join_style="mitre") if edge_mm > 0 else cloth


def _far(region: BaseGeometry) -> float:
    return 10 * (1 + sum(abs(v) for v in region.bounds)) if not region.is_empty else 1.0
