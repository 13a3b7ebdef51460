"""Where the words go on a drawn piece, so that they cover nothing that is drawn there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.affinity import rotate
from shapely.geometry import Polygon, box

from stash.fact import fact
from stash.model import Piece, Point, Role
from stash.pattern.legend import allowance_words
from stash.sentences import METRIC, Reader, say
from stash.sentences.quantities import written
from stash.sentences.saying import piece_named
from stash.sentences.translations import translated

ADVANCE = 0.58  # mean advance of a sans-serif letter, in letter heights
STRONG_ADVANCE = 0.66  # and of a bold one
LEAST_LETTER = 0.5  # of the wished height; below that the caption goes under the piece
COVERED = 0.005  # of their own paper, that words may cover of what is drawn
NUMBER = "0"  # holds the place of a number
FOLD_LETTERS = (0.75, 0.6, 0.5, 0.42, 0.36)  # of the letters in a piece
TURNED_WORTH = 0.7  # of level letters, that turned ones are worth
FOLD_SHARES = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2)  # of a fold, from its top
MOST_ROOMS = 4  # the largest parts of what is free
ROLE_WORDS = {
    Role.CONTRAST: "contrast",
    Role.LINING: "lining",
    Role.INTERFACING: "interfacing",
}


@dataclass(frozen=True, kw_only=True)
class Style:
    """How pieces are to be drawn: letter height, units, half pieces on the fold, dimensions.

    ``says`` is the line that every piece carries besides its own; ``complete`` adds its
    allowances and, where it has room, a square to measure. ``edge_names`` writes each edge's
    name beside it. No letter is lower than ``least_mm``: what has no room for it bears a number,
    which the drawing tells (``mark_key``).
    """

    letter_mm: float = 7.0
    reader: Reader = METRIC
    half_on_fold: bool = False
    dimensions: bool = True
    says: str = ""
    complete: bool = False
    edge_names: bool = False
    least_mm: float = 0.0

    def heights(self, shares: Iterable[float]) -> list[float]:
        """Letter heights in mm for these shares of the wished one, the largest first."""
        wished = {max(share * self.letter_mm, self.least_mm) for share in shares}
        return sorted(wished, reverse=True)


@dataclass(frozen=True)
class Words:
    """Text centred on a point, read after a turn clockwise by ``turn_deg``.

    A number in place of words ``stands_for`` them; which number, only the whole drawing knows.
    """

    text: str
    at_mm: Point
    height_mm: float
    turn_deg: float = 0.0
    strong: bool = False
    stands_for: str = ""

    @property
    def spot(self) -> Polygon:
        """The paper the words take."""
        x, y = self.at_mm
        wide = words_wide(self.text, strong=self.strong) * self.height_mm / 2
        tall = 0.45 * self.height_mm
        level = box(x - wide, y - tall, x + wide, y + tall)
        return rotate(level, self.turn_deg, origin=self.at_mm)


def words_wide(text: str, *, strong: bool = False) -> float:
    """How wide a line of words is, in letter heights."""
    return len(text) * (STRONG_ADVANCE if strong else ADVANCE)


def word(style: Style, text: str, **values: str) -> str:
    """A line beside the pieces in the reader's language."""
    return translated(text, style.reader.language).format(**values)


def cutting_words(piece: Piece, reader: Reader) -> list[str]:
    """What is said under the name, a line each: how many, and what is out of the ordinary."""
    kind = "cut_times"
    if piece.mirrored_pair:
        kind = "cut_as_pair" if piece.quantity == 2 else "cut_in_pairs"
    elif piece.on_fold:
        kind = "cut_on_fold"
    more = [say(fact("lies_on_bias"), reader)] if piece.grain_turn_deg else []
    if piece.role in ROLE_WORDS:
        more.append(translated(ROLE_WORDS[piece.role], reader.language))
    said = say(fact(kind, number=piece.quantity), reader)
    return [said, " · ".join(more)] if more else [said]


def size_square(room: shapely.Geometry, side_mm: float) -> Polygon | None:
    """A square of this side where there is room for it, low on the piece; None without."""
    for part in parts_of(room):
        left, top, right, foot = part.bounds
        for down in (0.85, 0.7, 0.55, 0.4, 0.25):
            for across in (0.5, 0.35, 0.65, 0.2, 0.8):
                x, y = left + across * (right - left), top + down * (foot - top)
                square = box(x - side_mm / 2, y - side_mm / 2, x + side_mm / 2, y + side_mm / 2)
                if part.contains(square.buffer(0.1 * side_mm)):
                    return square
    return None


def caption(
    piece: Piece, room: shapely.Geometry, shape: Polygon, style: Style,
    beside: Sequence[Words] = (),
) -> list[Words]:
    """The words on a piece, in the room that is free on it; where they do not fit, under it and
    under what stands ``beside`` it."""
    said = cutting_words(piece, style.reader)
    if style.complete and piece.role is Role.MAIN:
        said[0] = say(fact("of_main_cloth", cut=said[0]), style.reader)
    if style.complete and (allowed := allowance_words(piece, style.reader)):
        said.append(allowed)
    if style.says:
        said.append(style.says)
    if not style.dimensions:
        left, top, right, foot = shape.bounds
        sides = (right - left, foot - top)
        said += [" × ".join(written("measure_mm", mm, style.reader) for mm in sides)]
    name = piece_named(piece.name, style.reader)
    lines = [(name, 1.35, True), *((text, 1.0, False) for text in said)]
    rows, at, letter, turned = _placed(lines, parts_of(room), style)
    if not letter:
        left, _, right, foot = shape.bounds
        (letter,) = style.heights([0.75])
        foot = max([foot, *(w.spot.bounds[3] for w in beside)])
        at = ((left + right) / 2, foot + (_block_letters(rows)[1] / 2 + 0.4) * letter)
    words = []
    for row, (text, share, strong) in enumerate(rows):
        shift = (row - (len(rows) - 1) / 2) * 1.8 * letter
        spot = (at[0] - shift, at[1]) if turned else (at[0], at[1] + shift)
        words.append(Words(text, spot, letter * share, 90.0 if turned else 0.0, strong))
    return words


CaptionLine = tuple[str, float, bool]


def _block_letters(lines: Sequence[CaptionLine]) -> tuple[float, float]:
    """Width and height of a block of lines, in letter heights."""
    wide = max(words_wide(text, strong=strong) * share for text, share, strong in lines)
    return wide, 1.8 * len(lines) + 0.6


def _placed(
    lines: Sequence[CaptionLine], rooms: Sequence[Polygon], style: Style
) -> tuple[Sequence[CaptionLine], Point, float, bool]:
    """The lines as they stand: one below the other, else run together in two rows or in one, where
    a narrow band bears no more; under the piece where none of these goes inside its stitching.
    """
    for room in rooms:
        for rows in (lines, _run_together(lines, 2), _run_together(lines, 1)):
            at, letter, turned = roomiest(room, _block_letters(rows), style.letter_mm)
            if letter >= max(LEAST_LETTER * style.letter_mm, style.least_mm):
                return rows, at, letter, turned
    return lines, (0.0, 0.0), 0.0, False


def _run_together(lines: Sequence[CaptionLine], rows: int) -> list[CaptionLine]:
    """The lines in so many rows, the first beginning with the name."""
    texts = [text for text, _, _ in lines]
    if rows == 1:
        return [(" · ".join(texts), 1.0, True)]
    half = (len(texts) + 1) // 2
    return [(" · ".join(texts[:half]), 1.0, True), (" · ".join(texts[half:]), 1.0, False)]


def fold_words(shape: Polygon, style: Style, avoid: shapely.Geometry) -> list[Words]:
    """What the fold line says, where it is long enough to be read and nothing else is drawn."""
    kind = "place_on_fold" if style.half_on_fold else "may_lie_on_fold"
    said = say(fact(kind), style.reader)
    left = max(0.0, shape.bounds[0])
    band = box(left, shape.bounds[1], left + 0.02, shape.bounds[3])
    _, top, _, foot = largest(shape.intersection(band), shape).bounds
    spots = [
        Words(said, (1.2 * letter, top + share * (foot - top)), letter, 90.0)
        for letter in style.heights(FOLD_LETTERS)
        if foot - top > 1.05 * words_wide(said) * letter
        for share in FOLD_SHARES
    ]
    free = [w for w in spots if not w.spot.intersects(avoid)]
    if free or not style.least_mm:
        return free[:1] or spots[:1]
    numbers = [numbered(said, (side * 0.8 * style.least_mm, top + share * (foot - top)), style)
               for share in FOLD_SHARES for side in (1, -1)]
    return [min(numbers, key=lambda w: covers(w, avoid, shape))]


def numbered(said: str, at: Point, style: Style) -> Words:
    """A number at this point in place of words."""
    return Words(NUMBER, at, style.least_mm, strong=True, stands_for=said)


def covers(words: Words, drawn: shapely.Geometry, shape: Polygon) -> float:
    """The share of their own paper that words cover of what is drawn, or that is off the piece."""
    spot = words.spot
    off = float(spot.intersection(drawn).area) + float(spot.difference(shape).area)
    return off / float(spot.area)


def roomiest(
    room: Polygon, block_letters: tuple[float, float], wished_mm: float
) -> tuple[Point, float, bool]:
    """(centre, letter height, turned) of the largest block of words that lies inside; 0 for none.

    Level words win over turned ones unless these can be clearly larger; among equal
    places the one nearest the middle wins.
    """
    left, top, right, foot = room.bounds
    shapely.prepare(room)
    x, y = (grid.ravel() for grid in np.meshgrid(
        np.linspace(left, right, 15)[1:-1], np.linspace(top, foot, 19)[1:-1], indexing="ij"))
    near = -np.hypot((left + right) / 2 - x, top + 0.42 * (foot - top) - y)
    best = (-1.0, -np.inf, (0.0, 0.0), 0.0, False)
    for turned in (False, True):
        letters = _largest_letters(room, (x, y), block_letters, turned, wished_mm)
        worth = letters * (TURNED_WORTH if turned else 1.0)
        first = int(np.lexsort((-near, -worth))[0])
        key = (float(worth[first]), float(near[first]))
        if key > best[:2]:
            best = (*key, (float(x[first]), float(y[first])), float(letters[first]), turned)
    return best[2:]


def _largest_letters(
    room: Polygon, at: tuple[np.ndarray, np.ndarray], block_letters: tuple[float, float],
    turned: bool, wished_mm: float,
) -> np.ndarray:
    """At each point the letter height, up to the wished one, at which the block lies inside."""
    x, y = at
    found = np.zeros(len(x))
    for letter in (share * wished_mm for share in (LEAST_LETTER, 0.6, 0.7, 0.85, 1.0)):
        wide, tall = (side * letter / 2 for side in block_letters)
        if turned:
            wide, tall = tall, wide
        found[shapely.contains(room, shapely.box(x - wide, y - tall, x + wide, y + tall))] = letter
    return found


def parts_of(shape: shapely.Geometry) -> list[Polygon]:
    """The largest polygons of whatever is left of a shape, the largest first."""
    parts = [g for g in shapely.get_parts(shape) if isinstance(g, Polygon) and g.area > 0]
    return sorted(parts, key=lambda g: -float(g.area))[:MOST_ROOMS]


def largest(shape: shapely.Geometry, otherwise: Polygon | None = None) -> Polygon:
    """The biggest polygon of whatever is left of a shape."""
    parts = parts_of(shape)
    return parts[0] if parts else otherwise if otherwise is not None else Polygon()
