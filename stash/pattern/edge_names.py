"""The name of each edge beside it, so that it can be spoken of."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, cos, degrees, hypot, radians, sin

from shapely.geometry import LineString, Point, Polygon

from stash.model import Piece
from stash.pattern.legend import edge_term
from stash.pattern.lettering import NUMBER, Style, Words, words_wide
from stash.sentences.translations import translated

SHARE = 0.8  # of the letters in a piece
FOLD = "fold"


def edge_words(piece: Piece, shape: Polygon, style: Style) -> list[Words]:
    """A word along each edge, outside the cutting line; those too short for it bear a number in
    a drawing that has a key."""
    (letter,) = style.heights([SHARE])
    words = []
    for edge in piece.edges:
        said = translated(edge_term(edge.name), style.reader.language)
        line = LineString([(y, x) for x, y in edge.path_mm])
        if edge.name == FOLD:
            continue
        if line.length > 0.7 * words_wide(said) * letter:
            words.append(_beside(line, said, shape, letter))
        elif style.least_mm:
            number = _beside(line, NUMBER, shape, letter)
            words.append(replace(number, turn_deg=0.0, strong=True, stands_for=said))
    return words


def _beside(line: LineString, said: str, shape: Polygon, letter: float) -> Words:
    """Along the middle of the line, beyond the cut edge."""
    middle = line.interpolate(0.5, normalized=True)
    a, b = (line.interpolate(line.length / 2 + d) for d in (-2.0, 2.0))
    turn = degrees(atan2(b.y - a.y, b.x - a.x))
    turn = turn - 180 if turn > 90 else turn + 180 if turn <= -90 else turn
    out = radians(turn - 90)
    way = cos(out), sin(out)
    cut = shape.exterior.interpolate(shape.exterior.project(middle))
    reach = hypot(cut.x - middle.x, cut.y - middle.y) + 0.8 * letter
    if shape.contains(Point(middle.x + reach * way[0], middle.y + reach * way[1])):
        way = -way[0], -way[1]
    return Words(said, (middle.x + reach * way[0], middle.y + reach * way[1]), letter, turn)

