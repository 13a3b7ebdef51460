"""Pieces out of a DXF file: ASTM D6673 layers where they are used, plain closed lines otherwise."""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Iterable
from dataclasses import replace
from math import isfinite

from ezdxf import path, recover
from ezdxf.document import Drawing
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.insert import Insert
from ezdxf.entities.mtext import MText
from ezdxf.layouts.base import BaseLayout
from ezdxf.math import Vec3

from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.model import Point
from stash.pattern import layers
from stash.pattern.annotation import read_annotation
from stash.pattern.drawn import UNNAMED, Drawn, Reading, reading_of
from stash.pattern.dxf_sizes import keep_one_size, sizes_in
from stash.pattern.rings import MOST_POINTS, Polyline, closed_rings, outermost
from stash.pattern.sizes import SizeInDrawing

MOST_BYTES = 20_000_000
FLATTEN_MM = 0.1
UNIT_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}
LINES = {"LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "POLYLINE", "LWPOLYLINE"}
GRAIN_ALONG_X_DEG = 0.0


def read_dxf(
    data: bytes, units: str | None = None, grain_deg: float | None = None,
    size: str | None = None,
) -> Reading:
    """The pieces of a DXF file; ``units`` (mm, cm, in) overrides what the file says.

    One piece a block; without blocks, one piece a closed line that lies in no
    other. A file that states no units (R12 cannot) is refused until they are
    given. A piece without a grainline has its grain along the x axis of the file, or
    at ``grain_deg`` from it. Of several sizes, told apart by layer or by line type, ``size``
    is read; InvalidInput names them where none was chosen.
    """
    if len(data) > MOST_BYTES:
        raise InvalidInput("dxf_too_large")
    document = _document(data)
    scale = _mm_per_unit(document, units)
    keep_one_size(document, size)
    notes: list[Fact] = []
    uses = _uses(document)
    drawn = []
    for block in document.blocks:
        if not block.is_any_layout and not block.name.startswith("*"):
            used = uses.get(block.name, [])
            if block.name.startswith("_") and not used:  # the heads of dimension arrows
                continue
            found = _pieces(block, block.name, scale * abs(used[0] if used else 1.0))
            drawn += [_counted(d, used) for d in found]
    if not drawn:
        drawn = _pieces(document.modelspace(), UNNAMED, scale)
        if any(isinstance(e, Insert) for e in document.modelspace()) and not drawn:
            notes.append(fact("no_closed_line_in_blocks"))
    if grain_deg is None and not any(d.grain for d in drawn):
        notes.append(fact("grain_taken_along_x"))
    return reading_of(drawn, GRAIN_ALONG_X_DEG if grain_deg is None else grain_deg, notes)


def sizes_of_dxf(data: bytes) -> tuple[SizeInDrawing, ...]:
    """The sizes that a file holds, in order; none where it holds one."""
    return tuple(size for size, _ in sizes_in(_document(data)))


def _document(data: bytes) -> Drawing:
    """The parsed file. A parser fed with anything may fail in any way: one sentence for all."""
    if b"SECTION" not in data[:4096] and not data.startswith(b"AutoCAD Binary DXF"):
        raise InvalidInput("not_dxf")
    chatter = logging.getLogger("ezdxf")
    before, chatter.disabled = chatter.disabled, True
    try:
        document, _ = recover.read(io.BytesIO(data))
    except Exception as error:
        raise InvalidInput("dxf_damaged") from error
    finally:
        chatter.disabled = before
    return document


def _mm_per_unit(document: Drawing, units: str | None) -> float:
    """How many mm one drawing unit is."""
    if units is not None:
        if units not in UNIT_MM:
            raise InvalidInput("not_a_file_unit", typed=units, field="units")
        return UNIT_MM[units]
    stated = layers.MM_PER_UNIT.get(int(document.header.get("$INSUNITS", 0) or 0))
    if stated:
        return stated
    for said in _texts(document.modelspace()):
        if found := re.match(r"\s*units\s*[:=]\s*(metric|english)\b", said, re.I):
            return 1.0 if found.group(1).lower() == "metric" else 25.4
    raise InvalidInput("dxf_units_wanted", field="units")


def _uses(document: Drawing) -> dict[str, list[float]]:
    """For each block, one entry a time it is used: its size there, negative for a mirror image."""
    uses: dict[str, list[float]] = {}
    for insert in document.modelspace().query("INSERT"):
        across, down = insert.dxf.get("xscale", 1.0), insert.dxf.get("yscale", 1.0)
        uses.setdefault(insert.dxf.name, []).append(abs(across) * (1 if across * down > 0 else -1))
    return uses


def _counted(drawn: Drawn, uses: list[float]) -> Drawn:
    """Where no text says how many to cut, the number of times the block is used does."""
    if drawn.quantity is not None or len(uses) < 2:
        return drawn
    mirrored = sum(size < 0 for size in uses)
    return replace(drawn, quantity=len(uses), mirrored_pair=2 * mirrored == len(uses))


def _pieces(layout: BaseLayout, name: str, scale: float) -> list[Drawn]:
    """The pieces drawn in a block or in the model space."""
    lines = _lines(layout, scale)
    texts = list(_placed_texts(layout, scale))
    rings = closed_rings(lines.get(layers.BOUNDARY, []))
    if not rings:
        rings = closed_rings([line for group in lines.values() for line in group])
        lines = {}
    tops = outermost(rings)
    if len(tops) == 1:
        ring, inner = tops[0]
        return [_piece(name, ring, [rings[i] for i in inner], lines, [t for t, _ in texts])]
    return [
        _piece(
            name,
            ring,
            [rings[i] for i in inner],
            {k: [line for line in group if _on(line[0], ring)] for k, group in lines.items()},
            [said for said, at in texts if _on(at, ring)],
        )
        for ring, inner in tops
    ]


def _piece(
    name: str, ring: Polyline, inner: list[Polyline], lines: dict[str, list[Polyline]],
    texts: list[str],
) -> Drawn:
    """One piece from its outline, the lines that belong to it by layer, and its texts."""
    said = read_annotation(texts)
    marks = [mark for layer in layers.MARK_LAYERS for mark in lines.get(layer, [])]
    notches = [line[0] for layer in layers.NOTCH_LAYERS for line in lines.get(layer, [])]
    return Drawn(
        name=said.name or name,
        ring=ring,
        grain=_first(lines.get(layers.GRAIN_LINE, [])),
        fold=_first(lines.get(layers.MIRROR_LINE, [])),
        stitch=max(closed_rings(lines.get(layers.SEW_LINES, [])), key=len, default=()),
        marks=tuple(marks + inner),
        notches=tuple(notches),
        quantity=said.quantity,
        mirrored_pair=said.mirrored_pair,
        says_fold=said.on_fold,
        role=said.role,
    )


def _lines(layout: BaseLayout, scale: float) -> dict[str, list[Polyline]]:
    """Every line and point by its layer, in mm, curves flattened to 0.1 mm."""
    found: dict[str, list[Polyline]] = {}
    count = 0
    for entity in layout:
        kind = entity.dxftype()
        if kind == "POINT":
            points = [entity.dxf.location]
        elif kind in LINES:
            points = _flattened(entity, scale)
        else:
            continue
        count += len(points)
        if count > MOST_POINTS:
            raise InvalidInput("dxf_too_many_points")
        line = tuple((float(p.x) * scale, float(p.y) * scale) for p in points)
        if not all(isfinite(x) and isfinite(y) for x, y in line):
            raise InvalidInput("dxf_point_not_number")
        if line:
            found.setdefault(entity.dxf.layer, []).append(line)
    return found


def _flattened(entity: DXFEntity, scale: float) -> list[Vec3]:
    try:
        return list(path.make_path(entity).flattening(FLATTEN_MM / scale, segments=4))
    except (TypeError, ValueError, ArithmeticError):
        return []  # an entity without a usable shape, such as a line of no length


def _texts(layout: BaseLayout) -> Iterable[str]:
    return (said for said, _ in _placed_texts(layout, 1.0))


def _placed_texts(layout: BaseLayout, scale: float) -> Iterable[tuple[str, Point]]:
    """Every text with the point it stands at, in mm."""
    for entity in layout.query("TEXT MTEXT ATTDEF"):
        said = str(entity.plain_text()) if isinstance(entity, MText) else str(entity.dxf.text)
        yield said, (entity.dxf.insert.x * scale, entity.dxf.insert.y * scale)


def _first(lines: list[Polyline]) -> tuple[Point, Point] | None:
    """The first real line of a layer, as its two ends."""
    for line in lines:
        if len(line) > 1 and line[0] != line[-1]:
            return line[0], line[-1]
    return None


def _on(point: Point, ring: Polyline) -> bool:
    """Whether something starts within the box around a piece, and so belongs to it."""
    xs, ys = zip(*ring, strict=True)
    across = min(xs) - 1 <= point[0] <= max(xs) + 1
    return bool(across and min(ys) - 1 <= point[1] <= max(ys) + 1)
