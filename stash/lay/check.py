"""The independent check of a lay, by shapely alone: nothing here is used by the search.

It places every copy again from the placements and looks at the cloth itself, so a
mistake in the engine cannot hide in the check.
"""

from __future__ import annotations

from collections import Counter
from itertools import chain

import shapely
from shapely import Polygon, affinity

from stash.fact import Fact, fact
from stash.lay.task import LayTask
from stash.model import Lay, Piece, Placement, Repeat, Spread

TOUCH_MM = 0.05  # pieces and edges may touch; deeper than this is a fault
ANGLE_DEG = 1e-6
PHASE_MM = 0.05
SPREAD_MM = 0.5 + PHASE_MM  # further match points may be this far from whole repeats

PlacedPolygon = tuple[Placement, Piece, Polygon]


def check(task: LayTask, lay: Lay) -> list[Fact]:
    """Every fault of the lay; an empty list means it can be cut."""
    pieces = {p.name: p for p in task.pieces}
    faults = _counted(task, lay)
    if faults:
        return faults
    laid = [(p, pieces[_name(p)], placed_polygon(pieces[_name(p)], p)) for p in lay.placements]
    return [
        *chain.from_iterable(_turn_faults(task, p, piece) for p, piece, _ in laid),
        *_outside(task, lay, laid),
        *_overlaps(task, laid),
        *chain.from_iterable(_fold_faults(lay, p, piece, shape) for p, piece, shape in laid),
        *chain.from_iterable(_print_faults(task.repeat, p, piece) for p, piece, _ in laid),
    ]


def placed_polygon(piece: Piece, p: Placement) -> Polygon:
    """The piece's outline where a placement puts it."""
    shape = Polygon(piece.outline_mm)
    if p.mirrored:
        shape = affinity.scale(shape, 1, -1, origin=(0, 0))
    return affinity.translate(affinity.rotate(shape, p.turn_deg, origin=(0, 0)), p.x_mm, p.y_mm)


def _name(p: Placement) -> str:
    return p.piece.rpartition("#")[0]


def _counted(task: LayTask, lay: Lay) -> list[Fact]:
    wanted = Counter(f"{p.name}#{k}" for p in task.pieces for k in range(1, p.quantity + 1))
    given = Counter(p.piece for p in lay.placements)
    faults = [fact("not_laid", piece=name) for name in (wanted - given)]
    faults += [fact("laid_unasked", piece=name) for name in (given - wanted)]
    for piece in task.pieces:
        mirrored = sum(p.mirrored for p in lay.placements if _name(p) == piece.name)
        right = piece.quantity // 2 if piece.mirrored_pair else 0
        if not faults and mirrored != right:
            faults.append(
                fact("wrong_number_mirrored", piece=piece.name, mirrored=mirrored, wanted=right)
            )
    return faults


def _turn_faults(task: LayTask, p: Placement, piece: Piece) -> list[Fact]:
    """The grain must lie along the cloth (or at the bias angle), the right way up."""
    off = min(abs((p.turn_deg - t + 180) % 360 - 180) for t in _right_turns(task, p, piece))
    if off <= task.off_grain_deg + ANGLE_DEG:
        return []
    return [fact("wrongly_turned", piece=p.piece, turn_deg=p.turn_deg)]


def _right_turns(task: LayTask, p: Placement, piece: Piece) -> set[float]:
    """Turns at which the cloth's lengthwise direction shows on the piece as it should.

    A copy turned by t shows it at -t from its own grainline, a mirrored copy, brought back
    to its plain side, at +t. With a nap all copies show it as drawn, at -lean; without one
    a bias piece may show it to either side, at the turns its pattern lists.
    """
    lean = piece.grain_turn_deg
    if task.one_way:
        shown = -lean
        return {shown if p.mirrored else -shown}
    return {t + side for t in piece.turns_deg or (0.0,) for side in (lean, -lean)}


def _outside(task: LayTask, lay: Lay, laid: list[PlacedPolygon]) -> list[Fact]:
    if task.cloth is not None:
        cloth = Polygon(task.cloth.ring_mm, task.cloth.holes_mm)
    else:
        cloth = shapely.box(0, 0, lay.length_mm, task.width_mm or lay.width_mm)
    usable = cloth.buffer(TOUCH_MM - task.edge_mm, join_style="mitre")
    faults = [
        fact("leaves_the_cloth", piece=p.piece) for p, _, s in laid if not usable.covers(s)
    ]
    beyond = [
        fact("beyond_the_length", piece=p.piece)
        for p, _, s in laid
        if s.bounds[2] > lay.length_mm + TOUCH_MM
    ]
    return faults + beyond


def _overlaps(task: LayTask, laid: list[PlacedPolygon]) -> list[Fact]:
    shapes = [shape for _, _, shape in laid]
    tree = shapely.STRtree(shapes)
    first, second = tree.query([s.buffer(task.clearance_mm) for s in shapes])
    faults = []
    for i, j in zip(first, second, strict=True):
        if i < j:
            faults += _pair_faults(task, laid[i], laid[j])
    return faults


def _pair_faults(task: LayTask, one: PlacedPolygon, other: PlacedPolygon) -> list[Fact]:
    a, b = one[2], other[2]
    names = {"piece": one[0].piece, "other": other[0].piece}
    if task.clearance_mm > 0 and a.distance(b) < task.clearance_mm - TOUCH_MM:
        return [fact("too_near", apart_mm=task.clearance_mm, **names)]
    if a.buffer(-TOUCH_MM / 2).intersects(b.buffer(-TOUCH_MM / 2)):
        return [fact("overlapping", **names)]
    return []


def _fold_faults(lay: Lay, p: Placement, piece: Piece, shape: Polygon) -> list[Fact]:
    """On folded cloth nothing may lie across the fold except a piece cut on it."""
    if lay.spread is Spread.OPEN or lay.fold_mm is None:
        return []
    axis = 1 if lay.spread is Spread.LENGTHWISE else 0
    below, above = shape.bounds[axis] - lay.fold_mm, shape.bounds[axis + 2] - lay.fold_mm
    pinned = lay.spread is Spread.LENGTHWISE and piece.on_fold and not piece.grain_turn_deg
    if pinned:
        off = abs(below + above) > 2 * TOUCH_MM or abs(p.y_mm - lay.fold_mm) > TOUCH_MM
        return [fact("off_the_fold", piece=p.piece)] if off else []
    if below < -TOUCH_MM and above > TOUCH_MM:
        return [fact("across_the_fold", piece=p.piece)]
    return []


def _print_faults(repeat: Repeat | None, p: Placement, piece: Piece) -> list[Fact]:
    if repeat is None or not piece.match_points_mm:
        return []
    off = [_off_print(repeat, p, point) for point in piece.match_points_mm]
    if off[0] <= PHASE_MM and max(off) <= SPREAD_MM:
        return []
    return [fact("off_the_repeat", piece=p.piece, off_mm=max(off))]


def _off_print(repeat: Repeat, p: Placement, match_mm: tuple[float, float]) -> float:
    x, y = match_mm
    point = shapely.Point(x, -y if p.mirrored else y)
    point = affinity.rotate(point, p.turn_deg, origin=(0, 0))
    x, y = point.x + p.x_mm, point.y + p.y_mm
    column, across = _off(y, repeat.crosswise_mm)
    drop = (repeat.lengthwise_mm or 0.0) / 2 if repeat.half_drop and column % 2 else 0.0
    _, along = _off(x - drop, repeat.lengthwise_mm)
    return max(along, across)


def _off(value: float, pitch: float | None) -> tuple[int, float]:
    """(which line is nearest, how far it is)."""
    if not pitch:
        return 0, 0.0
    nearest = round(value / pitch)
    return nearest, abs(value - nearest * pitch)
