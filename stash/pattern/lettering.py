"""Where the words and the grainline go on a drawn piece, so that neither covers the other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, hypot, radians, sin

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon, box

from stash.fact import fact
from stash.model import Part, Piece, Point, Role
from stash.pattern.legend import allowance_words
from stash.sentences import METRIC, Reader, say
from stash.sentences.quantities import written
from stash.sentences.saying import piece_named
from stash.sentences.translations import translated

ADVANCE = 0.56  # mean advance of a sans-serif letter, in letter heights
LEAST_LETTER = 0.5  # of the wished height; below that the caption goes under the piece
LONGEST_ARROW_MM = 400.0
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
    name beside it.
    """

    letter_mm: float = 7.0
    reader: Reader = METRIC
    half_on_fold: bool = False
    dimensions: bool = True
    says: str = ""
    complete: bool = False
    edge_names: bool = False


@dataclass(frozen=True)
class Words:
    """Text centred on a point, read after a turn clockwise by ``turn_deg``."""

    text: str
    at_mm: Point
    height_mm: float
    turn_deg: float = 0.0
    strong: bool = False


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


def size_square(room: Polygon, side_mm: float) -> Polygon | None:
    """A square of this side where there is room for it, low on the piece; None without."""
    left, top, right, foot = room.bounds
    for down in (0.85, 0.7, 0.55, 0.4, 0.25):
        for across in (0.5, 0.35, 0.65, 0.2, 0.8):
            x, y = left + across * (right - left), top + down * (foot - top)
            square = box(x - side_mm / 2, y - side_mm / 2, x + side_mm / 2, y + side_mm / 2)
            if room.contains(square.buffer(0.25 * side_mm)):
                return square
    return None


def caption(
    piece: Piece, shape: Polygon, style: Style, avoid: shapely.Geometry | None = None
) -> tuple[list[Words], shapely.Geometry]:
    """The words on (or, when they do not fit, under) a piece, and the space they take.

    ``avoid`` is what is drawn there already.
    """
    said = cutting_words(piece, style.reader)
    if style.complete and piece.role is Role.MAIN and piece.part is not Part.BODY:
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
    words: list[Words] = []
    taken: shapely.Geometry = Polygon()
    if piece.on_fold:
        words = fold_words(shape, style)
        _, top, _, foot = shape.bounds
        taken = box(-1.7 * style.letter_mm, top, 1.7 * style.letter_mm, foot)
    rows, at, letter, turned = _placed(lines, _rooms(piece, shape, taken, avoid), style)
    wide, tall = _block_letters(rows)
    if not letter:
        left, _, right, foot = shape.bounds
        letter = 0.75 * style.letter_mm
        at = ((left + right) / 2, foot + (tall / 2 + 0.4) * letter)
    for row, (text, share, strong) in enumerate(rows):
        shift = (row - (len(rows) - 1) / 2) * 1.8 * letter
        spot = (at[0] - shift, at[1]) if turned else (at[0], at[1] + shift)
        words.append(Words(text, spot, letter * share, 90.0 if turned else 0.0, strong))
    return words, shapely.union(taken, block(at, (wide + 1.5, tall), letter, turned))


CaptionLine = tuple[str, float, bool]


def _block_letters(lines: Sequence[CaptionLine]) -> tuple[float, float]:
    """Width and height of a block of lines, in letter heights."""
    wide = max(len(text) * share for text, share, _ in lines) * ADVANCE
    return wide, 1.8 * len(lines) + 0.6


def _rooms(
    piece: Piece, shape: Polygon, taken: shapely.Geometry, avoid: shapely.Geometry | None
) -> list[Polygon]:
    """Where the words may stand, best first: inside the stitching and off what is drawn there."""
    blocked = shapely.union(taken, avoid) if avoid is not None else taken
    sewn = shape
    if len(piece.stitch_mm) > 2:
        inside = Polygon([(y, x) for x, y in piece.stitch_mm]).buffer(0)
        sewn = largest(shape.intersection(inside), shape)
    rooms = [sewn.difference(blocked), sewn.difference(taken)]
    return [largest(room) for room in rooms if not largest(room).is_empty]


def _placed(
    lines: Sequence[CaptionLine], rooms: Sequence[Polygon], style: Style
) -> tuple[Sequence[CaptionLine], Point, float, bool]:
    """The lines as they stand: one below the other, else run together in two rows or in one, where
    a narrow band bears no more; under the piece where none of these goes inside its stitching.
    """
    for room in rooms:
        for rows in (lines, _run_together(lines, 2), _run_together(lines, 1)):
            at, letter, turned = roomiest(room, _block_letters(rows), style.letter_mm)
            if letter >= LEAST_LETTER * style.letter_mm:
                return rows, at, letter, turned
    return lines, (0.0, 0.0), 0.0, False


def _run_together(lines: Sequence[CaptionLine], rows: int) -> list[CaptionLine]:
    """The lines in so many rows, the first beginning with the name."""
    texts = [text for text, _, _ in lines]
    if rows == 1:
        return [(" · ".join(texts), 1.0, True)]
    half = (len(texts) + 1) // 2
    return [(" · ".join(texts[:half]), 1.0, True), (" · ".join(texts[half:]), 1.0, False)]


def fold_words(shape: Polygon, style: Style) -> list[Words]:
    """What the fold line says, where it is long enough to be read."""
    kind = "place_on_fold" if style.half_on_fold else "may_lie_on_fold"
    said = say(fact(kind), style.reader)
    line = chord(shape, (max(0.01, shape.bounds[0] + 0.01), shape.centroid.y), 0.0)
    letter = 0.75 * style.letter_mm
    (_, y0), (_, y1) = line
    if span(line) < 1.2 * len(said) * ADVANCE * letter:
        return []
    return [Words(said, (0.9 * style.letter_mm, (y0 + y1) / 2), letter, 90.0)]


def roomiest(
    room: Polygon, block_letters: tuple[float, float], wished_mm: float
) -> tuple[Point, float, bool]:
    """(centre, letter height, turned) of the largest block of words that lies inside.

    Level words win over turned ones unless these can be clearly larger; among equal
    places the one nearest the middle wins.
    """
    left, top, right, foot = room.bounds
    middle = np.array(((left + right) / 2, top + 0.42 * (foot - top)))
    shapely.prepare(room)
    best: tuple[float, float, Point, float, bool] | None = None
    for x in np.linspace(left, right, 15)[1:-1]:
        for y in np.linspace(top, foot, 19)[1:-1]:
            for turned in (False, True):
                at = (float(x), float(y))
                letter = largest_letter(room, at, block_letters, turned, wished_mm)
                worth = letter * (0.7 if turned else 1.0)
                key = (worth, -float(np.hypot(*(middle - (x, y)))))
                if best is None or key > best[:2]:
                    best = (*key, at, letter, turned)
    assert best is not None
    return best[2:]


def largest_letter(
    room: Polygon, at: Point, block_letters: tuple[float, float], turned: bool, wished_mm: float
) -> float:
    """The letter height, up to the wished one, at which the block lies inside; 0 for none."""
    for share in (1.0, 0.85, 0.7, 0.6, LEAST_LETTER):
        if room.contains(block(at, block_letters, share * wished_mm, turned)):
            return share * wished_mm
    return 0.0


def block(at: Point, block_letters: tuple[float, float], letter_mm: float, turned: bool) -> Polygon:
    """The rectangle a block of words takes."""
    wide, tall = (side * letter_mm / 2 for side in block_letters)
    if turned:
        wide, tall = tall, wide
    return box(at[0] - wide, at[1] - tall, at[0] + wide, at[1] + tall)


def grain_arrow(room: Polygon, turn_deg: float, style: Style) -> Iterable[tuple[Point, ...]]:
    """The lines of the grainline: a shaft with an open head at both ends.

    ``turn_deg`` is the angle of the grain to the length of the piece.
    """
    inner = largest(room.buffer(-0.9 * style.letter_mm), room)
    left, top, right, foot = inner.bounds
    shares = (0.3, 0.2, 0.7, 0.8, 0.5, 0.1, 0.9)
    spots = [
        (left + across * (right - left), top + down * (foot - top))
        for across in shares
        for down in (0.5, 0.3, 0.7)
    ]
    chords = [chord(inner, spot, turn_deg) for spot in spots]
    longest = max(chords, key=lambda line: round(span(line)))
    (x0, y0), (x1, y1) = longest
    half = min(0.4 * span(longest), LONGEST_ARROW_MM / 2)
    return arrow(((x0 + x1) / 2, (y0 + y1) / 2), half, turn_deg, 0.9 * style.letter_mm)


def span(line: tuple[Point, Point]) -> float:
    """Length of a straight line in mm."""
    (x0, y0), (x1, y1) = line
    return hypot(x1 - x0, y1 - y0)


def arrow(
    at: Point, half_mm: float, turn_deg: float, head_mm: float
) -> Iterable[tuple[Point, ...]]:
    """A shaft down the page through ``at``, turned, and its two heads."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))

    def spot(x: float, y: float) -> Point:
        return at[0] + x * c + y * s, at[1] - x * s + y * c

    head = min(head_mm, half_mm / 2)
    yield spot(0, -half_mm), spot(0, half_mm)
    for tip in (-half_mm, half_mm):
        back = tip - head if tip > 0 else tip + head
        yield spot(-head * 0.4, back), spot(0, tip), spot(head * 0.4, back)


def chord(shape: Polygon, at: Point, turn_deg: float) -> tuple[Point, Point]:
    """The stretch that stays on the shape of a line down the page through ``at``, turned."""
    left, top, right, foot = shape.bounds
    far = hypot(right - left, foot - top)
    step = far * sin(radians(turn_deg)), far * cos(radians(turn_deg))
    line = LineString([(at[0] - step[0], at[1] - step[1]), (at[0] + step[0], at[1] + step[1])])
    parts = [p for p in shapely.get_parts(shape.intersection(line)) if p.length > 0]
    if not parts:
        return at, at
    nearest: Sequence[Point] = min(parts, key=shapely.Point(at).distance).coords
    (x0, y0), (x1, y1) = nearest[0], nearest[-1]
    return (float(x0), float(y0)), (float(x1), float(y1))


def largest(shape: shapely.Geometry, otherwise: Polygon | None = None) -> Polygon:
    """The biggest polygon of whatever is left of a shape."""
    parts = [g for g in shapely.get_parts(shape) if isinstance(g, Polygon) and g.area > 0]
    if parts:
        return max(parts, key=lambda g: float(g.area))
    return otherwise if otherwise is not None else Polygon()
