"""A piece on the drawn lay: its paper, grain arrow and lettering, and its match points."""

from __future__ import annotations

from copy import copy
from math import cos, radians, sin

from shapely import LineString, Point, Polygon, affinity
from shapely.ops import polylabel

from stash.lay.drawing.on_table import CutOut, Layers
from stash.lay.drawing.svg import Sketch

LETTER = 0.6  # width of a letter, in shares of its height, with some room
LEAST = 0.3  # height of lettering, in units, below which nothing is written smaller
SMALLEST = 0.25  # of the notes, likewise
MOST_LEAN_DEG = 20  # a piece tilted by more is lettered along its grain
IN_LINE_SHARE = 0.62  # of the length of a strip for its words, the rest for the arrow


def draw_piece(sketch: Sketch, cut: CutOut) -> None:
    """The piece as it lies, its grain arrow, and its lettering where there is most room."""
    draw_paper(sketch, cut)
    shape, (turn, across) = cut.shape, lettered_along(cut)
    words = PieceLettering(cut, turn, sketch)
    at = label_point(shape, words.way)
    if across:  # the arrow would cross the lettering
        ahead, behind = room_from(shape, at, words.way)
        draw_grain(sketch, cut, moved(at, *words.way, -0.6 * behind))
        middle = moved(at, *words.way, 0.5 * (ahead - 0.4 * behind))
        _draw_name(sketch, words, shape, middle, 0.8 * (ahead + 0.4 * behind), across=True)
        return
    along = 2 * min(room_from(shape, at, words.way))
    room = 2 * shape.exterior.distance(at) / sketch.unit
    in_line = words.line_size(room, along / sketch.unit)
    if in_line > 1.25 * min(words.sizes(room, along / sketch.unit)):
        dx, dy = (0.5 * along * v for v in words.way)
        draw_grain(sketch, cut, moved(at, dx, dy, IN_LINE_SHARE), 0.3 * along)
        middle = moved(at, dx, dy, IN_LINE_SHARE - 1)
        sketch.text((middle.x, middle.y), words.in_line, in_line, turn=-words.turn_deg)
    else:
        draw_grain(sketch, cut, at)
        _draw_name(sketch, words, shape, at, along)


def draw_paper(sketch: Sketch, cut: CutOut) -> None:
    """The pattern paper: another colour where it lies face down."""
    look = "piece mirror" if cut.seen.mirrored else "piece"
    sketch.path(cut.shape, f"{look} beneath" if cut.layers is Layers.LOWER else look, 0.14)
    if cut.seen.mirrored:
        sketch.path(cut.shape, "under")


def lettered_along(cut: CutOut) -> tuple[float, bool]:
    """Which way it is lettered, counter-clockwise, and whether its arrow would cross that."""
    x0, y0, x1, y1 = cut.shape.bounds
    turn = cut.seen.turn_deg
    lean = (turn + 90) % 180 - 90
    lean = lean if lean % 90 else 0.0
    across = (y1 - y0) > 1.6 * (x1 - x0) and abs(lean) <= MOST_LEAN_DEG
    return lean + 90.0 if across else lean, across and turn % 180 != 90


def room_from(shape: Polygon, at: Point, way: tuple[float, float]) -> tuple[float, float]:
    """How far the piece reaches ahead of a point and behind it."""
    return _room(shape, at, *way), _room(shape, at, -way[0], -way[1])


def moved(at: Point, dx: float, dy: float, share: float) -> Point:
    """A point so much of a way further on."""
    return Point(at.x + share * dx, at.y + share * dy)


def label_point(shape: Polygon, way: tuple[float, float]) -> Point:
    """Where lettering has most room both ways; the middle when that is nearly as good."""
    x0, y0, x1, y1 = shape.bounds

    def worth(at: Point) -> float:
        if not shape.contains(at):
            return 0.0
        along = min(_room(shape, at, *way), _room(shape, at, -way[0], -way[1]))
        return min(shape.exterior.distance(at), along / 3)

    steps = [k / 10 for k in range(1, 10)]
    grid = [Point(x0 + a * (x1 - x0), y0 + b * (y1 - y0)) for a in steps for b in steps]
    best = max([*grid, polylabel(shape, 2.0)], key=worth)
    return shape.centroid if worth(shape.centroid) >= 0.85 * worth(best) else best


class PieceLettering:
    """What is written on a piece: its name and copy, how it lies, and which way it is read
    (``turn_deg`` counter-clockwise)."""

    def __init__(self, cut: CutOut, turn_deg: float, sketch: Sketch):
        self.name = sketch.cut(cut.piece.name, cut.numbers)
        self.notes = _notes(cut, sketch)
        self.in_line = f"{self.name}, {self.notes}" if self.notes else self.name
        self.lift = 0.9 if cut.piece.on_fold else 0.66  # clear of the fold line as well
        self.turn_deg = turn_deg
        self.way = (cos(radians(turn_deg)), sin(radians(turn_deg)))

    def fitted(self, along: float) -> PieceLettering:
        """The same with only the first note where all of them would reach beyond the piece."""
        if SMALLEST * 0.56 * len(self.notes) <= along:
            return self
        fewer = copy(self)
        fewer.notes = self.notes.partition(",")[0]
        return fewer

    def sizes(self, room: float, along: float) -> tuple[float, float]:
        """Heights of the name and of the notes, on both sides of the arrow; all in units."""
        name = min(1.15, room / (3.4 if self.notes else 2.6), along / (LETTER * len(self.name)))
        name = max(LEAST, name)
        if not self.notes:
            return name, name
        return name, max(SMALLEST, min(0.72 * name, along / (0.56 * len(self.notes))))

    def line_size(self, room: float, along: float) -> float:
        """Height of everything in one line with the arrow behind it."""
        return min(1.0, room / 1.7, IN_LINE_SHARE * along / (LETTER * len(self.in_line)))


def _draw_name(
    sketch: Sketch, words: PieceLettering, shape: Polygon, at: Point, along_mm: float,
    *, across: bool = False,
) -> None:
    """Name on one side of the line through ``at``, how the piece lies on the other."""
    room = 2 * shape.exterior.distance(at) / sketch.unit
    words = words.fitted(along_mm / sketch.unit)
    size, small = words.sizes(room, along_mm / sketch.unit)
    alone = across and not words.notes  # nothing that it must keep clear of
    lift = 0.0 if alone else words.lift * size * sketch.unit
    dx, dy = -words.way[1] * lift, words.way[0] * lift
    above, below = moved(at, dx, dy, 1), moved(at, dx, dy, -1.05)
    size = inside(sketch, shape, above, words.way, words.name, size)
    sketch.text((above.x, above.y), words.name, size, turn=-words.turn_deg)
    if words.notes:
        small = inside(sketch, shape, below, words.way, words.notes, min(small, size))
        sketch.text((below.x, below.y), words.notes, small, turn=-words.turn_deg)


def inside(
    sketch: Sketch, shape: Polygon, at: Point, way: tuple[float, float], words: str, size: float
) -> float:
    """So much smaller that the words stay inside the piece, but no less than can be read."""
    while size > LEAST and not shape.contains(line_of(words, size * sketch.unit, at, way)):
        size *= 0.92
    return size


def line_of(words: str, high: float, at: Point, way: tuple[float, float]) -> Polygon:
    """The room that a line of lettering takes."""
    dx, dy = (0.28 * len(words) * high * v for v in way)
    return LineString([(at.x - dx, at.y - dy), (at.x + dx, at.y + dy)]).buffer(
        0.36 * high, cap_style="flat")


def _notes(cut: CutOut, sketch: Sketch) -> str:
    words = [] if cut.layers is Layers.ONE else [sketch.word(cut.layers.value)]
    if cut.seen.turn_deg % 360:
        words.append(sketch.word("turned {turn}", turn=sketch.turn(cut.seen.turn_deg)))
    if cut.seen.mirrored:
        words.append(sketch.word("turned over"))
    if cut.piece.grain_turn_deg:
        words.append(sketch.word("bias"))
    return ", ".join(words)


def draw_match(sketch: Sketch, cut: CutOut) -> None:
    """The points that lie on the print."""
    p = cut.seen
    for x, y in cut.piece.match_points_mm:
        spot = affinity.rotate(Point(x, -y if p.mirrored else y), p.turn_deg, origin=(0, 0))
        sketch.add(
            f'<circle class="spot" cx="{spot.x + p.x_mm:.1f}" '
            f'cy="{sketch.y(spot.y + p.y_mm):.1f}" r="{0.3 * sketch.unit:.1f}"/>'
        )


def draw_arrow(sketch: Sketch, cut: CutOut) -> None:
    """The grain arrow alone, where it has most room."""
    turn, _ = lettered_along(cut)
    draw_grain(sketch, cut, label_point(cut.shape, (cos(radians(turn)), sin(radians(turn)))))


def draw_grain(
    sketch: Sketch, cut: CutOut, at: Point, most_mm: float = float("inf")
) -> None:
    """The piece's own grain arrow: its head shows which way up the piece lies, of a bias piece
    too, whose grain runs askew over its paper."""
    shape, angle = cut.shape, radians(_grain_deg(cut))
    c, s = cos(angle), sin(angle)
    room = min(_room(shape, at, c, s), _room(shape, at, -c, -s))
    reach = min(0.8 * room, 4.5 * sketch.unit, 0.5 * most_mm)
    x0, y0, x1, y1 = at.x - c * reach, at.y - s * reach, at.x + c * reach, at.y + s * reach
    sketch.line("grain", (x0, y0, x1, y1), 0.09)
    h = min(0.55 * sketch.unit, 0.5 * reach, 0.5 * shape.exterior.distance(at))
    tip = [(x1, y1), (x1 - h * (c + 0.45 * s), y1 - h * (s - 0.45 * c)),
           (x1 - h * (c - 0.45 * s), y1 - h * (s + 0.45 * c))]
    points = " ".join(f"{x:.1f},{sketch.y(y):.1f}" for x, y in tip)
    sketch.add(f'<polygon class="tip" points="{points}"/>')


def _grain_deg(cut: CutOut) -> float:
    """The direction of the grain on the table, of the two that a bias piece may show the one
    that lies along the cloth."""
    turn, lean = cut.seen.turn_deg, cut.piece.grain_turn_deg
    return min((turn - lean, turn + lean), key=lambda way: abs((way + 90) % 180 - 90))


def _room(shape: Polygon, at: Point, c: float, s: float) -> float:
    """How far the piece reaches from a point in a direction, before its edge."""
    x0, y0, x1, y1 = shape.bounds
    far = (x1 - x0) + (y1 - y0)
    ray = LineString([(at.x, at.y), (at.x + c * far, at.y + s * far)])
    cut = shape.intersection(ray)
    runs = [g for g in getattr(cut, "geoms", [cut]) if g.length and g.distance(at) < 1e-6]
    return max((g.length for g in runs), default=0.0)
