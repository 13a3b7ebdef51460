"""A pattern file of whichever kind, told by what is in it."""

from __future__ import annotations

from stash.errors import InvalidInput
from stash.pattern.drawn import Reading
from stash.pattern.dxf_reading import read_dxf, sizes_of_dxf
from stash.pattern.sizes import SizeInDrawing
from stash.pattern.svg_reading import read_svg, sizes_of_svg

GRAIN_DEG = {"upright": -90.0, "level": 0.0}
BYTE_ORDER_MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")


def read_pattern(
    data: bytes, units: str | None = None, grain: str | None = None, size: str | None = None
) -> Reading:
    """The pieces of an SVG or DXF file, of one ``size`` where it holds several.

    ``units`` (mm, cm, in) is what one drawing unit is; ``grain`` "upright" or "level" says
    which way it runs in the file, for pieces on which no grainline is drawn.
    """
    if not data.strip():
        raise InvalidInput("file_empty")
    if grain is not None and grain not in GRAIN_DEG:
        raise InvalidInput("grain_upright_or_level", typed=grain)
    angle = GRAIN_DEG[grain] if grain else None
    if _is_svg(data):
        return read_svg(data, units, angle, size)
    return read_dxf(data, units, angle, size)


def sizes_of(data: bytes, units: str | None = None) -> tuple[SizeInDrawing, ...]:
    """The sizes that a drawing holds; none where it holds one."""
    return sizes_of_svg(data, units) if _is_svg(data) else sizes_of_dxf(data)


def _is_svg(data: bytes) -> bool:
    """True for an SVG, False for a DXF; InvalidInput for what is neither."""
    start = data[:4096]
    if start.lstrip(b"".join(BYTE_ORDER_MARKS) + b" \t\r\n\0").startswith(b"<"):
        return True
    if b"SECTION" in start or start.startswith(b"AutoCAD Binary DXF"):
        return False
    raise InvalidInput("neither_svg_nor_dxf")
