"""The selvedges of a remnant, drawn where they are known to be: at any edge, in any direction."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees, hypot

import shapely
from shapely import LineString, Point, box
from shapely.geometry.base import BaseGeometry

from stash.lay.drawing.on_table import Layers, OnTable
from stash.lay.drawing.svg import Sketch

BENEATH = "selvedge of the lower layer"
ASIDE = 0.55  # from the edge to its word, in units of lettering: the measures begin at 1.1
STEP_MM = 2.0


def draw_known(
    sketch: Sketch, table: OnTable, known: Sequence[tuple[BaseGeometry, Layers]]
) -> None:
    """Thick, as a whole cut's are, and named where the edge is as long as the word."""
    seen = box(*table.cloth.bounds).buffer(1.0)
    for line, layer in known:
        for run in shapely.get_parts(line.intersection(seen)):
            if isinstance(run, LineString) and run.length > 0:
                _draw_run(sketch, table.cloth, run, layer)


def _draw_run(sketch: Sketch, cloth: BaseGeometry, run: LineString, layer: Layers) -> None:
    (x0, y0), (x1, y1) = sorted((run.coords[0], run.coords[-1]))
    sketch.line("selvedge", (x0, y0, x1, y1), 0.32, "0.3 0.3")
    said = sketch.word(BENEATH if layer is Layers.LOWER else "selvedge")
    half = 0.24 * len(said) + 0.3
    long = hypot(x1 - x0, y1 - y0)
    if long < 2 * half * sketch.unit:
        return
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    middle = Point((x0 + x1) / 2 - STEP_MM * uy, (y0 + y1) / 2 + STEP_MM * ux)
    out = -1.0 if cloth.contains(middle) else 1.0
    if layer is Layers.LOWER:  # clear of the upper one's word
        out, x0, y0 = -out, x1 - 2 * half * sketch.unit * ux, y1 - 2 * half * sketch.unit * uy
    at = half * sketch.unit, out * ASIDE * sketch.unit
    sketch.text((x0 + at[0] * ux - at[1] * uy, y0 + at[0] * uy + at[1] * ux), said, 0.85,
                "faint halo" if layer is Layers.LOWER else "faint", -degrees(atan2(uy, ux)))
