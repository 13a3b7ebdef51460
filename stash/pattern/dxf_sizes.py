"""Several sizes in one DXF file: on layers named by size, or in line types of their own."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from ezdxf import path
from ezdxf.document import Drawing
from ezdxf.entities.dxfentity import DXFEntity

from stash.pattern.sizes import SizeInDrawing, size_named, the_one

UNSTYLED = {"BYLAYER", "BYBLOCK"}
OUTLINES, CURVES = 20, range(80, 88)  # the layers of ASTM D6673: no sizes


def sizes_in(document: Drawing) -> list[tuple[SizeInDrawing, list[DXFEntity]]]:
    """Each size with what is drawn of it; nothing where the file holds one size."""
    by_layer: dict[str, list[DXFEntity]] = defaultdict(list)
    found: dict[str, SizeInDrawing] = {}
    styled: dict[str, list[DXFEntity]] = defaultdict(list)
    for entity in _entities(document):
        layer = str(entity.dxf.get("layer", "0"))
        size = None if _numbered(layer) else size_named(layer)
        if size:
            found.setdefault(size.name, size)
            by_layer[size.name].append(entity)
        if getattr(entity, "is_closed", False) or getattr(entity, "closed", False):
            styled[str(entity.dxf.get("linetype", "BYLAYER")).upper()].append(entity)
    if len(found) > 1:
        return [(found[name], entities) for name, entities in by_layer.items()]
    named = {style: each for style, each in styled.items() if style not in UNSTYLED}
    if len(named) < 2 or len({len(each) for each in named.values()}) > 1:
        return []
    ordered = sorted(named, key=lambda style: sum(map(_reach, named[style])))
    return [(SizeInDrawing(str(n)), named[s]) for n, s in enumerate(ordered, 1)]


def keep_one_size(document: Drawing, asked: str | None) -> None:
    """Take out of the parsed file what is drawn of other sizes."""
    sizes = sizes_in(document)
    chosen = the_one((size.name for size, _ in sizes), asked)
    for size, entities in sizes:
        if size.name != chosen:
            for entity in entities:
                entity.destroy()
    document.entitydb.purge()


def _entities(document: Drawing) -> Iterable[DXFEntity]:
    for block in document.blocks:
        if not block.is_any_layout and not block.name.startswith("*"):
            yield from block
    yield from document.modelspace()


def _numbered(layer: str) -> bool:
    """True for a layer that ASTM D6673 numbers."""
    return layer.isdecimal() and (int(layer) <= OUTLINES or int(layer) in CURVES)


def _reach(entity: DXFEntity) -> float:
    """How large a closed line is: the diagonal of its box."""
    points = path.make_path(entity).control_vertices()
    if not points:
        return 0.0
    xs, ys = [p.x for p in points], [p.y for p in points]
    return float((max(xs) - min(xs)) + (max(ys) - min(ys)))
