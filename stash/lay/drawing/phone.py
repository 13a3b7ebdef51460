"""The lay drawn for a phone: nothing on it is lettered smaller than can be read there.

A piece bears its name where that has room; else its number in the order of cutting, and the
name stands with it below the drawing. How each lies is told by the arrow, the colour and the
table. That small pieces bear a number and a list names them is common practice, no source.
"""

from __future__ import annotations

from math import cos, hypot, radians, sin
from textwrap import shorten

from shapely import Point

from stash.lay.drawing.on_table import CutOut, OnTable
from stash.lay.drawing.pieces import (
    LETTER,
    draw_arrow,
    draw_grain,
    draw_paper,
    label_point,
    lettered_along,
    line_of,
    moved,
    room_from,
)
from stash.lay.drawing.positions import in_cutting_order
from stash.lay.drawing.svg import Sketch

NAME_ROOM = 2.5  # across the piece, for a line of lettering clear of the arrow, in units
IN_LINE_ROOM = 1.5  # likewise, where the arrow stands elsewhere along the piece
NUMBER_HIGH = 1.15
APART = 1.5  # units between two numbers that can be told apart
PLACES = (0.0, -0.5, 0.5, -0.8, 0.8)  # for a number, in shares of half the piece's length
ROW, INDENT, MEAN_LETTER = 1.5, 2.2, 0.56


class PhonePieces:
    """Draws the pieces of one lay, and knows the numbers and where they already stand."""

    def __init__(self, table: OnTable):
        self.number = {_key(cut): n for n, (_row, cut) in enumerate(in_cutting_order(table), 1)}
        self.standing: list[Point] = []

    def __call__(self, sketch: Sketch, cut: CutOut) -> None:
        """Its paper, its arrow, and its name or number."""
        draw_paper(sketch, cut)
        name = sketch.cut(cut.piece.name, cut.numbers)
        if not draw_named(sketch, cut, name):
            number = self.number[_key(cut)]
            sketch.told.append((number, name))
            self._draw_number(sketch, cut, str(number))

    def _draw_number(self, sketch: Sketch, cut: CutOut, number: str) -> None:
        turn, _ = lettered_along(cut)
        way = cos(radians(turn)), sin(radians(turn))
        at = label_point(cut.shape, way)
        half = min(room_from(cut.shape, at, way))
        draw_arrow(sketch, cut)
        places = [moved(at, *way, share * half) for share in PLACES]
        free = [p for p in places if self._clear(p) >= APART * sketch.unit]
        spot = free[0] if free else max(places, key=self._clear)
        self.standing.append(spot)
        sketch.text((spot.x, spot.y), number, NUMBER_HIGH, "number halo")

    def _clear(self, at: Point) -> float:
        return min((hypot(at.x - p.x, at.y - p.y) for p in self.standing), default=float("inf"))


def draw_named(sketch: Sketch, cut: CutOut, name: str) -> bool:
    """Arrow and name, where the name has room; False, and nothing drawn, where it has none."""
    shape, (turn, across) = cut.shape, lettered_along(cut)
    way = cos(radians(turn)), sin(radians(turn))
    at = label_point(shape, way)
    ahead, behind = room_from(shape, at, way)
    along = 0.8 * (ahead + 0.4 * behind) if across else 2 * min(ahead, behind)
    room = 2 * shape.exterior.distance(at) / sketch.unit
    if room < (IN_LINE_ROOM if across else NAME_ROOM) or along < LETTER * len(name) * sketch.unit:
        return False
    if across:  # the arrow would cross the name
        arrow = moved(at, *way, -0.6 * behind)
        words = moved(at, *way, 0.5 * (ahead - 0.4 * behind))
    else:
        arrow, words = at, moved(at, -way[1], way[0], 0.75 * sketch.unit)
    if not shape.contains(line_of(name, sketch.unit, words, way)):
        return False
    draw_grain(sketch, cut, arrow)
    sketch.text((words.x, words.y), name, turn=-turn)
    return True


def draw_told(sketch: Sketch, left: float, wide: float, y: float) -> float:
    """The numbers and the names they stand for, in rows from ``y`` down; how tall they are."""
    told, u = sorted(sketch.told), sketch.unit
    longest = max((len(name) for _number, name in told), default=0)
    columns = 2 if wide / 2 > (INDENT + MEAN_LETTER * longest + 0.5) * u else 1
    most = int((wide / columns / u - INDENT - 0.5) / MEAN_LETTER)
    for n, (number, name) in enumerate(told):
        row, column = divmod(n, columns)
        x, at = left + column * wide / columns + 1.2 * u, y - (row + 0.6) * ROW * u
        sketch.text((x, at), str(number), 1.0, "number")
        said = shorten(name, most, placeholder="…")
        sketch.text((x + (INDENT - 1.2) * u, at), said, 1.0, "row")
    return -(-len(told) // columns) * ROW * u


def _key(cut: CutOut) -> tuple[str, tuple[int, ...]]:
    return cut.piece.name, cut.copies
