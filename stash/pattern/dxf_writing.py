"""Pieces as a DXF file with the layers of ASTM D6673: one block a piece, millimetres."""

from __future__ import annotations

import io
import re
import unicodedata
from collections.abc import Iterable, Sequence
from math import cos, degrees, radians, sin

import ezdxf.units
from ezdxf.filemanagement import new
from ezdxf.layouts.base import BaseLayout
from ezdxf.layouts.blocklayout import BlockLayout
from ezdxf.math import Vec2
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.model import MarkKind, Pattern, Piece, Point
from stash.pattern import layers
from stash.pattern.arrange import arrange
from stash.pattern.figure import draw_piece
from stash.pattern.legend import allowance_words
from stash.pattern.lettering import Style, cutting_words
from stash.pattern.marked import drill_points
from stash.pattern.pieces_svg import line_of, pieces_of
from stash.sentences import METRIC, Reader

CORNER_DEG = 20.0
TEXT_MM = 8.0
GAP_MM = 80.0  # between one size and the next


def write_dxf(
    pattern: Pattern | Sequence[Piece], *, title: str = "", drawn_on: str = "",
    reader: Reader = METRIC,
) -> bytes:
    """A DXF R2000 file in mm; x runs along the grain, as in ``Piece``.

    Pieces on the fold are written whole with the mirror line through them, so
    that a program which does not know layer 6 still gets the true piece. Texts
    are 7-bit ASCII as the standard asks; other letters are escaped by their code.
    """
    return _written([("", pattern)], (title, drawn_on), reader)


def write_dxf_sizes(
    sizes: Sequence[tuple[str, Pattern]], *, title: str = "", drawn_on: str = "",
    reader: Reader = METRIC,
) -> bytes:
    """The same of several sizes, (name, pattern) each: one block a piece and size.

    Each block says its size in a text, as the standard has it; sizes lie below one another.
    InvalidInput when two sizes bear one name.
    """
    if len({name for name, _ in sizes}) < len(sizes) or not all(name for name, _ in sizes):
        raise InvalidInput("sizes_named_alike", field="size")
    return _written(sizes, (title, drawn_on), reader)


def _written(
    sizes: Sequence[tuple[str, Pattern | Sequence[Piece]]], named: tuple[str, str], reader: Reader
) -> bytes:
    """The file; ``named`` is its title and the day it was drawn on."""
    document = new("R2000", units=ezdxf.units.MM)
    for layer in [*range(1, 16), *range(80, 84)]:
        document.layers.add(str(layer))
    space = document.modelspace()
    title = pieces_of(sizes[0][1], named[0])[1]
    for row, said in enumerate((f"Style Name: {title or 'pattern'}", "Units: METRIC")):
        _text(space, said, (0.0, -30.0 - 15 * row), layers.BOUNDARY)
    blocks = iter(block_names(
        f"{p.name} {size}".strip() for size, one in sizes for p in pieces_of(one, title)[0]))
    below = 0.0
    for size, one in sizes:
        pieces, says = pieces_of(one, title)[0], line_of(one, *named)
        corners = _corners(pieces)
        for piece, corner in zip(pieces, corners, strict=True):
            name = next(blocks)
            block = document.blocks.new(name)
            _piece(block, piece)
            _said(block, piece, (size, says), reader)
            at = corner[0], corner[1] + below
            space.add_blockref(name, at, dxfattribs={"layer": layers.BOUNDARY})
        below += max(corner[1] + _wide(piece) for piece, corner in
                     zip(pieces, corners, strict=True)) + GAP_MM
    stream = io.StringIO()
    document.write(stream)
    return re.sub(r"[^\x00-\x7f]", _escaped, stream.getvalue()).encode("ascii")


def _wide(piece: Piece) -> float:
    """Across the grain, from the block's own origin."""
    return max(y for _, y in piece.outline_mm)


def _escaped(letter: re.Match[str]) -> str:
    """A letter beyond ASCII as DXF writes it; those beyond four hex digits cannot be written."""
    code = ord(letter.group())
    return f"\\U+{code:04X}" if code <= 0xFFFF else "?"


def block_names(names: Iterable[str]) -> list[str]:
    """Plain, different block names in the letters every DXF reader takes."""
    taken: list[str] = []
    for given in names:
        plain = unicodedata.normalize("NFKD", given).encode("ascii", "ignore").decode()
        base = re.sub(r"[^A-Za-z0-9-]+", "_", plain).strip("_").upper() or "PIECE"
        name, count = base, 1
        while name in taken:
            count += 1
            name = f"{base}_{count}"
        taken.append(name)
    return taken


def _corners(pieces: Sequence[Piece]) -> list[Point]:
    """Where each block goes so that none lies over another."""
    figures = [draw_piece(piece, Style(dimensions=False)) for piece in pieces]
    spots = {}
    for figure in arrange(figures, gap_mm=40.0).figures:
        left, top, _, _ = figure.shape.bounds
        at_left, at_top, _, _ = Polygon([(y, x) for x, y in figure.piece.outline_mm]).bounds
        spots[figure.piece.name] = (top - at_top, left - at_left)
    return [spots[piece.name] for piece in pieces]


def _piece(block: BlockLayout, piece: Piece) -> None:
    _ring(block, piece.outline_mm, layers.BOUNDARY)
    _ring(block, piece.stitch_mm, layers.SEW_LINES)
    _vertices(block, piece.outline_mm)
    for notch in piece.notches_mm:
        block.add_point(notch, dxfattribs={"layer": layers.NOTCHES})
    _marks(block, piece)
    xs, ys = zip(*piece.outline_mm, strict=True)
    if piece.on_fold:
        fold = ((min(xs), 0.0), (max(xs), 0.0))
        block.add_line(fold[0], fold[1], dxfattribs={"layer": layers.MIRROR_LINE})
    centre, half = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2), 0.3 * (max(xs) - min(xs))
    turn = radians(piece.grain_turn_deg)
    step = half * cos(turn), half * sin(turn)
    grain = [(centre[0] + k * step[0], centre[1] + k * step[1]) for k in (-1, 1)]
    block.add_line(grain[0], grain[1], dxfattribs={"layer": layers.GRAIN_LINE})


def _said(
    block: BlockLayout, piece: Piece, of: tuple[str, str], reader: Reader
) -> None:
    """Name, size, number, allowances, garment and wearer, a line each; ``of`` size and garment."""
    size, says = of
    xs, ys = zip(*piece.outline_mm, strict=True)
    middle = (min(ys) + max(ys)) / 2
    sized = f"Size: {size}" if size else ""
    said = [f"Piece Name: {piece.name}", sized, f"Quantity: {piece.quantity}",
            *cutting_words(piece, reader), allowance_words(piece, reader), says]
    for row, words in enumerate(filter(None, said)):
        _text(block, words, (min(xs) + 10, middle - 12.0 * (row + 1)), layers.ANNOTATION)


def _marks(block: BlockLayout, piece: Piece) -> None:
    """Lines on the layer of internal lines, single points on that of drill holes."""
    if not piece.marks:
        for mark in piece.marks_mm:
            _ring(block, mark, layers.INTERNAL_LINES, closed=False)
    for typed in piece.marks:
        if typed.kind not in (MarkKind.NOTCH, MarkKind.DOUBLE_NOTCH) and len(typed.at_mm) > 1:
            _ring(block, typed.at_mm, layers.INTERNAL_LINES, closed=False)
    for point in drill_points(piece):
        block.add_point(point, dxfattribs={"layer": layers.DRILL_HOLES})


def _ring(
    block: BlockLayout, points: Sequence[Point], layer: str, *, closed: bool = True
) -> None:
    if len(points) == 1:
        block.add_point(points[0], dxfattribs={"layer": layer})
    elif points:
        block.add_polyline2d(points, close=closed, dxfattribs={"layer": layer})


def _vertices(block: BlockLayout, ring: Sequence[Point]) -> None:
    """Turn points where the line bends sharply, curve points along curves."""
    for i, point in enumerate(ring):
        before, after = Vec2(ring[i - 1]), Vec2(ring[(i + 1) % len(ring)])
        here = Vec2(point)
        bend = degrees((here - before).angle_between(after - here))
        layer = layers.TURN_POINTS if abs(bend) > CORNER_DEG else layers.CURVE_POINTS
        block.add_point(point, dxfattribs={"layer": layer})


def _text(block: BaseLayout, said: str, at: Point, layer: str) -> None:
    block.add_text(said, height=TEXT_MM, dxfattribs={"layer": layer}).set_placement(at)
