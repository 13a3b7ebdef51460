"""The ways to spread the cloth of a task, each with the board it is laid on.

A fixed cut is laid on a board that runs on beyond its far end, so that one search
answers both questions: does everything end before ``target_mm``, and if not, how much
longer should the cut have been?
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice
from math import ceil, floor, remainder
from typing import cast

import numpy as np
from shapely import Polygon, box

from stash.lay.cloth.repeat import PRINT_MM, fold_steps_mm
from stash.lay.cloth.spread import (
    BOTH,
    FIRST,
    SpreadCloth,
    cloth_of,
    spread_crosswise,
    spread_lengthwise,
    spread_open,
)
from stash.lay.cloth.stances import Item, Stance, items_of
from stash.lay.cloth.unfold import placements
from stash.lay.search.board import Board, board, used_mm
from stash.lay.search.overlap import TOUCH_MM, LayState
from stash.lay.task import LayTask
from stash.model import Lay, Spread

ROUNDING = 1e-9  # of a repeat: a fold so near before a line of the print lies on it
DOUBLES_MORE = 1.05  # times as much cloth under a fold beyond the middle: worth a board
ROOM_MM = 1.0  # off the roll, more length an item than it is long


@dataclass(frozen=True)
class WayToSpread:
    """A board, the cloth's own frame, and the working length that must not be passed."""

    board: Board
    cloth: Polygon
    target_mm: float | None

    @property
    def cut_back(self) -> float:
        """How far the board runs on beyond the cloth."""
        return 0.0 if self.target_mm is None else self.board.length_mm - self.target_mm

    @property
    def layers_long(self) -> int:
        """Lengths of cloth under one working length: two when folded crosswise."""
        return 2 if self.board.sheet.spread is Spread.CROSSWISE else 1

    def within(self, state: LayState) -> bool:
        """True when nothing lies beyond the end of the cloth by more than touching it."""
        if self.target_mm is None:
            return True
        return used_mm(self.board, state) <= self.target_mm + TOUCH_MM

    def short_mm(self, state: LayState) -> float | None:
        """How much longer the cut should have been for this lay."""
        if self.target_mm is None:
            return None
        return max(0.0, (used_mm(self.board, state) - self.target_mm) * self.layers_long)

    def lay(self, state: LayState) -> Lay:
        """The lay in the frame of the opened-out cloth."""
        b = self.board
        used = used_mm(b, state)
        if self.target_mm is not None and self.within(state):
            used = min(used, self.target_mm)
        sheet = self._fold_after(used)
        end = self._end_mm(state, sheet, used)
        placed = [
            (item, b.stances[s], float(x), float(y))
            for item, s, (x, y) in zip(b.items, state.stance, state.position, strict=True)
        ]
        left, low, _, high = self.cloth.bounds
        area = piece_area_mm2(b.task)
        return Lay(
            placements=placements(sheet, placed),
            length_mm=end,
            width_mm=high - low,
            utilisation=area / ((end - left) * (high - low)),
            spread=sheet.spread,
            fold_mm=sheet.fold_mm,
        )

    def _fold_after(self, used_mm: float) -> SpreadCloth:
        """A straight cut folded crosswise is folded right behind its last piece, or at the
        next line about which its print mirrors onto itself."""
        sheet = self.board.sheet
        if sheet.spread is not Spread.CROSSWISE or not _straight(self.cloth):
            return sheet
        behind = self.board.start_mm + used_mm
        step, _ = fold_steps_mm(self.board.task.repeat)
        return replace(sheet, fold_mm=ceil((behind - TOUCH_MM) / step) * step if step else behind)

    def _end_mm(self, state: LayState, sheet: SpreadCloth, used_mm: float) -> float:
        """Where the length used ends, in the cloth's own frame: beneath a crosswise fold the
        pieces nearest to the beginning lie farthest on."""
        board, end = self.board, self.board.start_mm + used_mm
        if sheet.spread is Spread.CROSSWISE:
            under = (
                2 * (sheet.fold_mm or 0.0) - x - min(along for along, _ in board.stances[s].ring)
                for s, x in zip(state.stance, state.position[:, 0], strict=True)
                if board.table.layers[s] != FIRST
            )
            end = max((end - board.task.clearance_mm / 2, *map(float, under)))
        return end + board.task.edge_mm


def piece_area_mm2(task: LayTask) -> float:
    """Area of all copies of all pieces."""
    return sum(Polygon(p.outline_mm).area * p.quantity for p in task.pieces)


def ways_to_spread(task: LayTask) -> Iterator[WayToSpread]:
    """Ways to try, the handiest to cut first."""
    for spread in spreads_of(task):
        items = items_of(task, spread)
        if spread is not Spread.OPEN and task.spread is None and not any(map(_doubled, items)):
            continue
        for cloth, sheet, target in _sheets(task, spread, items):
            way = WayToSpread(board(task, sheet, items), cloth, target)
            if way.board.misfit is None:
                yield way


def spreads_of(task: LayTask) -> tuple[Spread, ...]:
    """The spread asked for; when left to choose, every spread this cloth allows."""
    if task.spread is not None:
        return (task.spread,)
    if task.one_way:
        return (Spread.LENGTHWISE, Spread.OPEN)
    return (Spread.LENGTHWISE, Spread.OPEN, Spread.CROSSWISE)


def _sheets(
    task: LayTask, spread: Spread, items: tuple[Item, ...]
) -> Iterator[tuple[Polygon, SpreadCloth, float | None]]:
    reach = sum(min(_length(s) for s in item.stances) for item in items)
    reach += (task.clearance_mm + ROOM_MM) * len(items) + _repeat_reach(task, items)
    cloth = cloth_of(task, reach)
    x0, _, x1, _ = cloth.bounds
    if spread is Spread.CROSSWISE:
        yield from _crosswise(task, cloth, reach)
        return
    long_cloth = cloth if task.cloth is None else extended(cloth, reach)
    target = None if task.cloth is None else x1 - x0 - 2 * task.edge_mm
    if spread is Spread.OPEN:
        yield cloth, spread_open(long_cloth, task.edge_mm), target
        return
    for fold in _folds(task, cloth, items):
        yield cloth, spread_lengthwise(long_cloth, task.edge_mm, fold), target


def _crosswise(
    task: LayTask, cloth: Polygon, reach: float
) -> Iterator[tuple[Polygon, SpreadCloth, float | None]]:
    x0, _, x1, _ = cloth.bounds
    step, _ = fold_steps_mm(task.repeat)

    def on_print(line_mm: float) -> float:
        return floor(line_mm / step + ROUNDING) * step if step else line_mm

    def endless(fold_mm: float) -> SpreadCloth:
        """As much cloth beneath the fold as lies before it."""
        whole = extended(cloth, 2 * fold_mm - x0 - x1)
        return spread_crosswise(whole, task.edge_mm, fold_mm)

    if task.cloth is None:
        yield cloth, endless(on_print((x1 + reach) / 2)), None
    elif _straight(cloth):
        fold = on_print((x0 + x1) / 2)
        yield cloth, endless(on_print(fold + reach)), fold - x0 - task.edge_mm
    else:
        fold = on_print((x0 + x1) / 2)
        if fold > x0:
            target = max(fold - x0, x1 - fold) - task.edge_mm
            yield cloth, spread_crosswise(cloth, task.edge_mm, fold), target


def _folds(task: LayTask, cloth: Polygon, items: tuple[Item, ...]) -> Iterator[float]:
    """Fold lines: the middle, then one that doubles only what the widest pair needs."""
    _, low, _, high = cloth.bounds
    middle = (low + high) / 2
    doubled = [_width(s) for item in items if _doubled(item) for s in item.stances[:1]]
    needed = max(doubled, default=0.0) + task.edge_mm + task.clearance_mm
    lines = list(_on_print(task, items, middle))
    if len(lines) > 1 and high - lines[1] <= DOUBLES_MORE * (lines[0] - low):
        lines.pop()
    singles = any(not _doubled(item) for item in items)
    if singles and doubled and needed < 0.9 * (middle - low):
        beyond = task.repeat.crosswise_mm or 0.0 if task.repeat else 0.0
        # room to step back to where the print allows
        lines += islice(_on_print(task, items, low + needed + beyond), 1)
    yield from dict.fromkeys(line for line in lines if low < line < high)


def _on_print(task: LayTask, items: tuple[Item, ...], line_mm: float) -> Iterator[float]:
    """The nearest lines at or before this one, and beyond, along which the print may be folded.

    The print must mirror onto itself there, and the match points of pieces cut on the fold
    must lie on it; no line when they cannot.
    """
    _, step = fold_steps_mm(task.repeat)
    if task.repeat is None or not step:
        yield line_mm
        return
    pinned = [i.piece.match_points_mm[0][1] for i in items if i.on_fold and i.piece.match_points_mm]
    phase = -pinned[0] if pinned else 0.0
    pitch = (task.repeat.crosswise_mm or step) if pinned else step
    alike = all(abs(remainder(phase + y, pitch)) <= PRINT_MM for y in pinned)
    if alike and abs(remainder(phase, step)) <= PRINT_MM:
        line = floor((line_mm - phase) / pitch + ROUNDING) * pitch + phase
        yield line
        if line < line_mm - PRINT_MM:
            yield line + pitch


def _repeat_reach(task: LayTask, items: tuple[Item, ...]) -> float:
    repeat = task.repeat
    return 0.0 if repeat is None else 2 * (repeat.lengthwise_mm or 0.0) * (len(items) + 1)


def extended(cloth: Polygon, by_mm: float) -> Polygon:
    """The cloth running on in its full width beyond its far end."""
    _, low, right, high = cloth.bounds
    return cast(Polygon, cloth.union(box(right, low, right + by_mm, high)))


def _doubled(item: Item) -> bool:
    return item.stances[0].layers == BOTH


def _length(stance: Stance) -> float:
    x = np.asarray(stance.base)[:, 0]
    return float(x.max() - x.min())


def _width(stance: Stance) -> float:
    y = np.asarray(stance.base)[:, 1]
    return float(y.max() - y.min())


def _straight(cloth: Polygon) -> bool:
    return cloth.area >= (1 - 1e-9) * cloth.envelope.area
