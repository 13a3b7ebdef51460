"""The board: one sheet and its items as the flat arrays that the kernels read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from stash.lay.cloth.outlines import Flip, Ring, grown
from stash.lay.cloth.phases import phases
from stash.lay.cloth.spread import BOTH, SpreadCloth, obstacles
from stash.lay.cloth.stances import Item, Stance
from stash.lay.nofit.depth import Charts, chart, joined
from stash.lay.nofit.region import around as region_around
from stash.lay.nofit.region import between as region_between
from stash.lay.search.overlap import LayState
from stash.lay.task import LayTask
from stash.model import Spread

OutlinePairs = tuple[tuple[Ring, Ring, Flip], ...]

HEFT = 0.5  # power of an item's length that its overlaps weigh


class BoardArrays(NamedTuple):
    """What kernels read. s stances, n items, m most stances of an item, o obstacles.

    region (s, s): no-fit region of the column's stance moving about the row's, looked up
    at ``flip`` (s, 2) of the row times the distance. blocked (o, s): the same of obstacles.
    fit (s, 4): where a stance's origin may lie, for the full length; box (s, 4): extent
    of the grown shape. choices (n, m): stances of an item, -1 beyond. phase (s, 2): see
    ``cloth.phases``; pitch (3,): lengthwise, crosswise (0 = free), 1 when half-drop.
    heft (n, n + o): what an overlap of that pair weighs at the least, 1 for the average.
    """

    region: np.ndarray
    flip: np.ndarray
    blocked: np.ndarray
    blocked_layers: np.ndarray
    layers: np.ndarray
    fit: np.ndarray
    box: np.ndarray
    choices: np.ndarray
    phase: np.ndarray
    latticed: np.ndarray
    pitch: np.ndarray
    heft: np.ndarray


@dataclass(frozen=True)
class Board:
    """A sheet with its items, ready for filling and searching.

    Only pairs of stances that can meet have regions; ``length_mm`` is the box of the
    sheet along the grain, ``start_mm`` where it begins.
    """

    task: LayTask
    sheet: SpreadCloth
    items: tuple[Item, ...]
    stances: tuple[Stance, ...]
    table: BoardArrays
    charts: Charts
    start_mm: float
    length_mm: float
    areas_mm2: np.ndarray

    @property
    def misfit(self) -> Item | None:
        """An item that has no place on the bare sheet in any of its stances."""
        fit = self.table.fit
        roomy = (fit[:, 2] >= fit[:, 0]) & (fit[:, 3] >= fit[:, 1])
        for item, row in zip(self.items, self.table.choices, strict=True):
            if not any(roomy[s] for s in row if s >= 0):
                return item
        return None


def board(task: LayTask, sheet: SpreadCloth, items: Sequence[Item]) -> Board:
    """Gather no-fit regions, fits and charts of one sheet and its items."""
    stances: dict[Stance, int] = {}
    rows = [[stances.setdefault(s, len(stances)) for s in item.stances] for item in items]
    choices = np.full((len(items), max(map(len, rows), default=1)), -1, np.int64)
    for k, row in enumerate(rows):
        choices[k, : len(row)] = row
    kinds = tuple(stances)
    rings = {s.base: grown(s.base, task.clearance_mm / 2) for s in kinds}
    region, pairs = _pair_regions(kinds, rings)
    blocked, blocked_layers, around = _blocked_regions(sheet, kinds, len(pairs))
    pinned = {s for item in items if item.on_fold for s in item.stances}
    phase, latticed = phases(tuple(items), stances, task.repeat, sheet)
    areas = np.array([_area(item.stances[0]) for item in items])
    table = BoardArrays(
        region=region,
        flip=np.array([s.flip for s in kinds], float).reshape(-1, 2),
        blocked=blocked,
        blocked_layers=blocked_layers,
        layers=np.array([s.layers for s in kinds], np.int64),
        fit=np.array([_fit(s, sheet, task, s in pinned) for s in kinds]).reshape(-1, 4),
        box=np.array([_box(rings[s.base], s.flip) for s in kinds]).reshape(-1, 4),
        choices=choices,
        phase=phase,
        latticed=latticed,
        pitch=_pitch(task),
        heft=_heft(areas, len(blocked)),
    )
    left, _, right, _ = sheet.bounds_mm
    charts = joined(_charts_between(pairs), chart(around)) if around else _charts_between(pairs)
    return Board(task, sheet, tuple(items), kinds, table, charts, left, right - left, areas)


def _pair_regions(
    kinds: tuple[Stance, ...], rings: dict[Ring, Ring]
) -> tuple[np.ndarray, OutlinePairs]:
    """(region[i, j] for every pair of stances, the pairs of rings with flip that are regions).

    Flips of one pair of bases share a region.
    """
    known: dict[tuple[Ring, Ring, Flip], int] = {}
    table = np.empty((len(kinds), len(kinds)), np.int64)
    for i, a in enumerate(kinds):
        for j, b in enumerate(kinds):
            flip = (a.flip[0] * b.flip[0], a.flip[1] * b.flip[1])
            pair = (rings[a.base], rings[b.base], flip)
            table[i, j] = known.setdefault(pair, len(known))
    return table, tuple(known)


@lru_cache(maxsize=32)
def _charts_between(pairs: OutlinePairs) -> Charts:
    """Charts of a set of pieces, remembered for the next cut."""
    return chart([_between(a, b, flip) for a, b, flip in pairs])


def _between(a: Ring, b: Ring, flip: Flip) -> np.ndarray:
    """The region of b about a, from the remembered one of a about b where that came first."""
    if a <= b:
        return region_between(a, b, flip)
    return region_between(b, a, flip) * (-flip[0], -flip[1], -flip[0], -flip[1])


def _blocked_regions(
    sheet: SpreadCloth, kinds: tuple[Stance, ...], offset: int
) -> tuple[np.ndarray, np.ndarray, list[np.ndarray]]:
    """(region numbers (o, s) from ``offset`` on, layers they block, the regions' edges)."""
    fixed = obstacles(sheet)
    regions: list[np.ndarray] = []
    table = np.empty((len(fixed), len(kinds)), np.int64)
    for o, (polygon, _) in enumerate(fixed):
        known: dict[tuple[Ring, Flip], int] = {}
        for j, s in enumerate(kinds):
            key = (s.base, s.flip)
            if key not in known:
                known[key] = offset + len(regions)
                regions.append(region_around(polygon, grown(s.base, 0.0), s.flip))
            table[o, j] = known[key]
    return table, np.array([layers for _, layers in fixed], np.int64), regions


def _fit(stance: Stance, sheet: SpreadCloth, task: LayTask, pinned: bool) -> list[float]:
    """Where the origin may lie so that the piece is inside the sheet's box."""
    left, low, right, high = sheet.bounds_mm
    if stance.layers != BOTH and len(sheet.layers) == 2:
        left, low, right, high = sheet.layers[stance.layers - 1].bounds
    x0, y0, x1, y1 = _box(stance.base, stance.flip)
    if pinned:
        low, high = (-y0, -y0) if -y0 + y1 <= high else (0.0, -1.0)
        return [left - x0, low, right - x1, high]
    from_fold = task.clearance_mm / 2
    if sheet.spread is Spread.LENGTHWISE:
        low = max(low, from_fold)
    if sheet.spread is Spread.CROSSWISE:
        right = min(right, (sheet.fold_mm or 0.0) - from_fold)
    return [left - x0, low - y0, right - x1, high - y1]


def _box(ring: Ring, flip: Flip) -> list[float]:
    points = np.asarray(ring) * flip
    return [*points.min(0), *points.max(0)]


def _area(stance: Stance) -> float:
    x, y = np.asarray(stance.base).T
    return float(abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2)


def _heft(areas_mm2: np.ndarray, obstacles: int) -> np.ndarray:
    """By the lengths of the pair: large items are the harder to house."""
    length = np.sqrt(areas_mm2 / areas_mm2.mean()) ** HEFT
    between = np.sqrt(length[:, None] * length)
    return np.hstack([between, np.repeat(length[:, None], obstacles, axis=1)])


def _pitch(task: LayTask) -> np.ndarray:
    repeat = task.repeat
    if repeat is None:
        return np.zeros(3)
    return np.array(
        [repeat.lengthwise_mm or 0.0, repeat.crosswise_mm or 0.0, float(repeat.half_drop)]
    )


def used_mm(board: Board, state: LayState) -> float:
    """Length in use, from the start of the sheet."""
    table = board.table
    beyond = table.fit[state.stance, 2] - state.position[:, 0]
    return float(board.length_mm - beyond.min())


def shortest_possible(board: Board) -> float:
    """No lay can be shorter than its longest item lying its shortest way."""
    table = board.table
    taken = board.length_mm - (table.fit[:, 2] - table.fit[:, 0])
    rows = [min(taken[s] for s in row if s >= 0) for row in table.choices]
    return float(np.max(rows))
