"""From what a file or a photograph shows of a piece to a ``Piece``: grain, fold, one name each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from math import atan2, cos, degrees, hypot, pi, radians, sin

import shapely
from shapely.geometry import LineString, Polygon

from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.model import Piece, Point, Role
from stash.pattern.part_words import part_named
from stash.pattern.rings import Polyline, checked_ring

UNNAMED = "piece"  # what nobody named yet; said in the reader's language
ON_LINE_MM = 1.0
PARALLEL_DEG = 1.0
MOST_PIECES = 500
HALF_SHARE = 0.5  # of its length a fold's edge is at least: chosen here
OTHER_SHARE = 0.9  # of it no other edge along the grain may be longer: chosen here


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """One piece as it was drawn, in mm with y upwards.

    ``grain`` is two points along the grain; ``fold`` two points of the line about
    which the piece is the same on both sides, whether one half was drawn or both;
    ``says_fold`` that words on it speak of a fold; ``under`` the corners of the photograph
    that lies under it.
    """

    name: str
    ring: Polyline
    grain: tuple[Point, Point] | None = None
    fold: tuple[Point, Point] | None = None
    says_fold: bool = False
    stitch: Polyline = ()
    marks: tuple[Polyline, ...] = ()
    notches: tuple[Point, ...] = ()
    quantity: int | None = None
    mirrored_pair: bool = False
    role: Role = Role.MAIN
    grain_turn_deg: float = 0.0
    under: Polyline = ()


@dataclass(frozen=True)
class Reading:
    """What came out of a file or photographs.

    ``drawn_mm`` gives for each piece the width and height it has as drawn there,
    for comparing with a ruler; ``notes`` are facts on what was left out or assumed.
    """

    pieces: tuple[Piece, ...]
    drawn_mm: tuple[tuple[float, float], ...]
    notes: tuple[Fact, ...] = field(default=())


def reading_of(drawn: Sequence[Drawn], grain_deg: float, notes: Iterable[Fact] = ()) -> Reading:
    """Every drawn piece made a ``Piece``; ``grain_deg`` is the grain where none was drawn."""
    if not drawn:
        raise InvalidInput("no_closed_shape")
    if len(drawn) > MOST_PIECES:
        raise InvalidInput("too_many_shapes", shapes=len(drawn), most=MOST_PIECES)
    named = [replace(d, name=n) for d, n in zip(drawn, unique(d.name for d in drawn), strict=True)]
    sizes = [Polygon(d.ring).bounds for d in named]
    halves = [replace(d, fold=edge) if (edge := _half_edge(d, grain_deg)) else d for d in named]
    notes = [
        *notes, *(_opened_note(d) for d, was in zip(halves, named, strict=True) if d is not was),
        *(_fold_note(d) for d in halves if d.says_fold and not d.fold),
    ]
    named = halves
    return Reading(
        tuple(piece_of(d, grain_deg) for d in named),
        tuple((right - left, high - low) for left, low, right, high in sizes),
        tuple(dict.fromkeys(notes)),
    )


def _half_edge(drawn: Drawn, grain_deg: float) -> tuple[Point, Point] | None:
    """The edge a piece that speaks of a fold is half of: its longest straight one along the grain.

    None where a fold is drawn, where no such edge is half as long as the piece, or where two
    might be meant.
    """
    if drawn.fold or not drawn.says_fold:
        return None
    angle = direction_deg(drawn.grain) if drawn.grain else grain_deg
    level = turned(drawn, -angle)
    ring = checked_ring(level.ring, f"The piece “{drawn.name}”")
    xs = [x for x, _ in ring]
    edges = [e for e in zip(ring, (*ring[1:], ring[0]), strict=True) if is_level(e)]
    edges.sort(key=lambda e: -abs(e[1][0] - e[0][0]))
    longest, *others = edges or [((0.0, 0.0), (0.0, 0.0))]
    reach = abs(longest[1][0] - longest[0][0])
    if reach < HALF_SHARE * (max(xs) - min(xs)):
        return None
    if others and abs(others[0][1][0] - others[0][0][0]) > OTHER_SHARE * reach:
        return None  # either may be the fold
    c, s = cos(radians(angle)), sin(radians(angle))
    (x0, y0), (x1, y1) = longest
    return (x0 * c - y0 * s, x0 * s + y0 * c), (x1 * c - y1 * s, x1 * s + y1 * c)


def _opened_note(drawn: Drawn) -> Fact:
    return fact("half_opened_out", piece=drawn.name)


def _fold_note(drawn: Drawn) -> Fact:
    return fact("fold_not_drawn", piece=drawn.name)


def unique(names: Iterable[str]) -> list[str]:
    """The names, a number after those that come again; "#" is kept for copies of a piece."""
    taken: set[str] = set()
    result = []
    for given in names:
        base = " ".join(given.replace("#", " ").split())[:60] or UNNAMED
        name, count = base, 1
        while name in taken:
            count += 1
            name = f"{base} {count}"
        taken.add(name)
        result.append(name)
    return result


def piece_of(drawn: Drawn, grain_deg: float) -> Piece:
    """The piece with its grain turned along x and, if folded, its fold on y = 0."""
    drawn = replace(drawn, ring=checked_ring(drawn.ring, f"The piece “{drawn.name}”"))
    if drawn.fold:
        drawn = opened_out(drawn, drawn.fold)
    angle = direction_deg(drawn.grain) if drawn.grain else grain_deg
    drawn = turned(drawn, drawn.grain_turn_deg - angle)
    on_fold = drawn.fold is not None and is_level(drawn.fold)
    left, low, _, _ = Polygon(drawn.ring).bounds
    drawn = shifted(drawn, -left, -drawn.fold[0][1] if on_fold and drawn.fold else -low)
    pair = drawn.mirrored_pair and not on_fold
    return Piece(
        name=drawn.name,
        outline_mm=drawn.ring,
        quantity=drawn.quantity or (2 if pair else 1),
        mirrored_pair=pair,
        on_fold=on_fold,
        role=drawn.role,
        part=part_named(drawn.name),
        stitch_mm=drawn.stitch,
        notches_mm=drawn.notches,
        marks_mm=drawn.marks,
        grain_turn_deg=drawn.grain_turn_deg,
    )


def direction_deg(line: Sequence[Point]) -> float:
    """Which way a line points, counter-clockwise from x."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    return degrees(atan2(y1 - y0, x1 - x0))


def is_level(line: Sequence[Point]) -> bool:
    """True when a line runs along the grain."""
    turn = direction_deg(line) % 180
    return min(turn, 180 - turn) <= PARALLEL_DEG


def opened_out(drawn: Drawn, fold: tuple[Point, Point]) -> Drawn:
    """A half piece joined to its mirror image; a piece drawn whole stays as it is."""
    ring = [_onto(p, fold) for p in drawn.ring]
    shape, other = Polygon(ring), Polygon([reflect(p, fold) for p in ring])
    if shape.intersection(other).area > 0.9 * shape.area:
        return drawn
    whole = shapely.union(shape, other, grid_size=1e-6)
    if not isinstance(whole, Polygon) or whole.interiors:
        raise InvalidInput("fold_not_on_edge", piece=drawn.name)
    edge = LineString(fold)
    notches = [n for n in drawn.notches if edge.distance(shapely.Point(n)) > ON_LINE_MM]
    return replace(
        drawn,
        ring=checked_ring(
            [(x, y) for x, y in whole.exterior.coords[:-1]], f"The piece “{drawn.name}”"
        ),
        stitch=mirrored_line(drawn.stitch, fold),
        marks=drawn.marks + tuple(tuple(reflect(p, fold) for p in m) for m in drawn.marks),
        notches=drawn.notches + tuple(reflect(p, fold) for p in notches),
    )


def mirrored_line(line: Polyline, fold: tuple[Point, Point]) -> Polyline:
    """A half stitching line and its image as one ring."""
    if len(line) < 3:
        return ()
    half = [_onto(p, fold) for p in line]
    shapes = Polygon(half), Polygon([reflect(p, fold) for p in half])
    if not all(s.is_valid for s in shapes):
        return ()
    whole = shapely.union(*shapes, grid_size=1e-6)
    if not isinstance(whole, Polygon):
        return ()
    return tuple((float(x), float(y)) for x, y in _simplified(whole).exterior.coords[:-1])


def _simplified(shape: Polygon) -> Polygon:
    simple = shape.simplify(0.02)
    return simple if isinstance(simple, Polygon) else shape


def _onto(point: Point, line: Sequence[Point]) -> Point:
    """The point, moved onto the line where it all but lies there."""
    x, y = reflect(point, line)
    near = hypot(x - point[0], y - point[1]) <= 2 * ON_LINE_MM
    return ((x + point[0]) / 2, (y + point[1]) / 2) if near else point


def reflect(point: Point, line: Sequence[Point]) -> Point:
    """The mirror image of a point about a line."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    size = hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / size, (y1 - y0) / size
    dx, dy = point[0] - x0, point[1] - y0
    along, off = dx * ux + dy * uy, -dx * uy + dy * ux
    return x0 + along * ux + off * uy, y0 + along * uy - off * ux


def turned(drawn: Drawn, turn_deg: float) -> Drawn:
    """Everything turned counter-clockwise about the origin."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    if abs(turn_deg % 90) < 1e-9:
        c, s = float(round(c)), float(round(s))
    return _each(drawn, lambda p: (p[0] * c - p[1] * s, p[0] * s + p[1] * c))


def shifted(drawn: Drawn, dx: float, dy: float) -> Drawn:
    """Everything moved."""
    return _each(drawn, lambda p: (p[0] + dx, p[1] + dy))


def _each(drawn: Drawn, move: Callable[[Point], Point]) -> Drawn:
    def line(points: Iterable[Point]) -> Polyline:
        return tuple(map(move, points))

    def pair(ends: tuple[Point, Point] | None) -> tuple[Point, Point] | None:
        return (move(ends[0]), move(ends[1])) if ends else None

    return replace(
        drawn,
        ring=line(drawn.ring),
        grain=pair(drawn.grain),
        fold=pair(drawn.fold),
        stitch=line(drawn.stitch),
        marks=tuple(map(line, drawn.marks)),
        notches=line(drawn.notches),
        under=line(drawn.under),
    )


def longest_axis_deg(ring: Sequence[Point]) -> float:
    """The direction of the long side of the smallest rectangle around a shape."""
    around = shapely.minimum_rotated_rectangle(Polygon(ring))
    points = around.exterior.coords if isinstance(around, Polygon) else ring
    corners: list[Point] = [(x, y) for x, y in points]
    sides = [(corners[i], corners[i + 1]) for i in (0, 1)]
    longest = max(sides, key=lambda side: hypot(side[1][0] - side[0][0], side[1][1] - side[0][1]))
    turn = radians(direction_deg(longest))
    return degrees(turn - pi if turn > pi / 2 else turn + pi if turn <= -pi / 2 else turn)
