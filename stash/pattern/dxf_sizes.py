"""Several sizes in one DXF file: a block a piece and size, layers named by size, or line types."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable

from ezdxf import path
from ezdxf.document import Drawing
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.mtext import MText

from stash.pattern.sizes import SizeInDrawing, size_named, the_one

SAID = re.compile(r"\s*size\s*:\s*(\S.{0,39}?)\s*$", re.I)
UNSTYLED = {"BYLAYER", "BYBLOCK"}
OUTLINES, CURVES = 20, range(80, 88)  # the layers of ASTM D6673: no sizes


def sizes_in(document: Drawing) -> list[tuple[SizeInDrawing, list[DXFEntity]]]:
    """Each size with what is drawn of it; nothing where the file holds one size."""
    if blocks := _by_block(document):
        return blocks
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


def _by_block(document: Drawing) -> list[tuple[SizeInDrawing, list[DXFEntity]]]:
    """The sizes that blocks say they are of, as ASTM D6673 has it: a text "Size: 38" in each."""
    found: dict[str, SizeInDrawing] = {}
    drawn: dict[str, list[DXFEntity]] = defaultdict(list)
    whose: dict[str, str] = {}
    for block in document.blocks:
        if block.is_any_layout or block.name.startswith("*"):
            continue
        said = next((m.group(1) for e in block.query("TEXT MTEXT")
                     if (m := SAID.match(_text(e)))), None)
        if said is None:
            continue
        size = size_named(said) or SizeInDrawing(said)
        found.setdefault(size.name, size)
        whose[block.name] = size.name
        drawn[size.name] += list(block)
    for insert in document.modelspace().query("INSERT"):
        if insert.dxf.name in whose:
            drawn[whose[insert.dxf.name]].append(insert)
    return [(found[name], drawn[name]) for name in found] if len(found) > 1 else []


def _text(entity: DXFEntity) -> str:
    said = entity.plain_text() if isinstance(entity, MText) else entity.dxf.get("text", "")
    return str(said)


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
