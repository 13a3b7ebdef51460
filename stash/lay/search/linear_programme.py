"""Moving all items at once, by a linear programme: to undo overlaps that no single move
undoes, and to draw a lay in.

Beside where it lies, each pair of neighbours is kept apart by half-planes; within them
overlap and length are linear in the moves (compaction and separation after Li and
Milenkovic 1995). HiGHS solves it. Stances stay as they are.
"""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING, NamedTuple

import highspy
import numpy as np

from stash.lay.compiled import kernel, lent
from stash.lay.nofit.halfplanes import halfplanes
from stash.lay.search.board import Board
from stash.lay.search.overlap import LayState, between, copied, measure, overlap_left

if TYPE_CHECKING:
    from stash.lay.nofit.depth import Charts
    from stash.lay.search.board import BoardArrays

MOST_MOVE_MM = 20.0  # farther off, the half-planes say too little
MOST_PLANES = 16  # of a pair
FREE = np.inf
DRAWN_IN_MM, MOST_ROUNDS = 0.02, 6
OPTIONS = (
    ("output_flag", False), ("threads", 1), ("solver", "simplex"), ("presolve", "off"),
    ("simplex_scale_strategy", 0), ("simplex_dual_edge_weight_strategy", 0),
    ("dual_simplex_cost_perturbation_multiplier", 0.0),
)  # small programmes, and lengths of a like size: what helps large ones only costs time


class Rows(NamedTuple):
    """Conditions sum(value * variable[column]) >= least, row by row.

    Variables: two moves an item, the length gained, one slack a pair. ``start`` (m + 1),
    ``column`` and ``value`` (5 m at most), ``least`` (m,); ``pair`` (p, 2): the item, and the
    other item or n + obstacle.
    """

    start: np.ndarray
    column: np.ndarray
    value: np.ndarray
    least: np.ndarray
    pair: np.ndarray


def solved(
    board: Board, state: LayState, cut_back: float, rows: Rows,
    slack_costs: np.ndarray | None = None,
) -> tuple[LayState | None, float]:
    """(state after the best move, length gained); None where the rows contradict each other.

    With ``slack_costs`` (p,) the least overlap at this length, each pair's at its cost;
    without, the least length at which nothing overlaps. Items on a repeat stay put.
    """
    n, pairs = len(state.stance), len(rows.pair)
    fit = board.table.fit[state.stance]
    least = np.maximum(-MOST_MOVE_MM, fit[:, :2] - state.position)
    most = np.minimum(MOST_MOVE_MM, fit[:, 2:] - (cut_back, 0.0) - state.position)
    least[board.table.latticed] = most[board.table.latticed] = 0.0
    gain, slack = (FREE, 0.0) if slack_costs is None else (0.0, FREE)
    costs = np.zeros(pairs) if slack_costs is None else slack_costs
    lower = np.concatenate([least.ravel(), np.zeros(1 + pairs)])
    upper = np.concatenate([np.maximum(most, least).ravel(), [gain], np.full(pairs, slack)])
    found = _optimum(np.concatenate([np.zeros(2 * n), [-1.0], costs]), lower, upper, rows)
    if found is None:
        return None, 0.0
    moved = copied(state)
    moved.position[:] += found[: 2 * n].reshape(n, 2)
    moved.reach[:] = board.table.box[moved.stance] + np.tile(moved.position, 2)
    return moved, float(found[2 * n])


class _Solvers(threading.local):
    """One solver for each worker: making one takes as long as a small programme."""

    def __init__(self) -> None:
        # the plain binding: the dressed one prints a greeting
        self.solver = vars(highspy)["_Highs"]()
        for option, value in OPTIONS:
            self.solver.setOptionValue(option, value)


_SOLVERS = _Solvers()


def _optimum(
    costs: np.ndarray, lower: np.ndarray, upper: np.ndarray, rows: Rows
) -> np.ndarray | None:
    """The best values of the variables, None when there are none."""
    solver = _SOLVERS.solver
    solver.clearModel()
    solver.passModel(
        len(costs), len(rows.least), len(rows.column), int(highspy.MatrixFormat.kRowwise),
        int(highspy.ObjSense.kMinimize), 0.0, costs, lower, upper,
        rows.least, np.full(len(rows.least), FREE), rows.start, rows.column, rows.value,
        np.zeros(len(costs), np.int32),
    )
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return np.array(solver.getSolution().col_value)


def rows_of(board: Board, state: LayState, cut_back: float) -> Rows:
    """What keeps every pair of neighbours apart, and everything before the end."""
    table, charts = board.table, board.charts
    pairs = _neighbours(table, state)
    planes = np.empty((len(pairs), MOST_PLANES, 3))
    counts = _planes_of(table, charts, state, pairs, planes)
    pairs, planes, counts = pairs[counts > 0], planes[counts > 0], counts[counts > 0]
    return Rows(*_written(table, state, cut_back, pairs, planes, counts), pairs)


@kernel
def _neighbours(table: BoardArrays, state: LayState) -> np.ndarray:
    """Pairs (p, 2) that could meet when both move as far as they may."""
    n, both = len(state.stance), 2 * MOST_MOVE_MM
    pairs = np.empty((n * state.overlap.shape[1], 2), np.int64)
    count = 0
    for i in range(n):
        mine = state.reach[i]
        for k in range(i + 1, state.overlap.shape[1]):
            if k >= n:
                met = table.blocked_layers[k - n] & table.layers[state.stance[i]]
            else:
                its = state.reach[k]
                met = table.layers[state.stance[k]] & table.layers[state.stance[i]]
                if (
                    its[0] >= mine[2] + both or its[2] <= mine[0] - both
                    or its[1] >= mine[3] + both or its[3] <= mine[1] - both
                ):
                    met = 0
            if met:
                pairs[count, 0], pairs[count, 1] = i, k
                count += 1
    return pairs[:count].copy()


@kernel
def _planes_of(
    table: BoardArrays, charts: Charts, state: LayState, pairs: np.ndarray, planes: np.ndarray
) -> np.ndarray:
    """How many half-planes (p,) each pair was given in ``planes``, in the region's frame."""
    table, charts, state = lent(table), lent(charts), lent(state)
    reach = 2 * np.sqrt(2.0) * MOST_MOVE_MM
    counts = np.zeros(len(pairs), np.int64)
    for p in range(len(pairs)):
        i, k = pairs[p]
        region, fx, fy, px, py = between(table, state, i, state.stance[i], k)
        x, y = (state.position[i, 0] - px) * fx, (state.position[i, 1] - py) * fy
        counts[p] = halfplanes(charts, region, x, y, reach, planes[p])
    return counts


@kernel
def _written(
    table: BoardArrays, state: LayState, cut_back: float, pairs: np.ndarray, planes: np.ndarray,
    counts: np.ndarray,
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """(start, index, value, least): n . (move - other's move) + slack >= what is wanting,
    and for every item: move along + gain <= room before the end."""
    n, rows = len(state.stance), counts.sum() + len(state.stance)
    start, least = np.zeros(rows + 1, np.int32), np.empty(rows)
    index, value = np.empty(5 * rows, np.int32), np.empty(5 * rows)
    r = used = 0
    for p in range(len(pairs)):
        i, k = pairs[p]
        _, fx, fy, px, py = between(table, state, i, state.stance[i], k)
        for h in range(counts[p]):
            nx, ny = planes[p, h, 0] * fx, planes[p, h, 1] * fy
            index[used], index[used + 1], index[used + 2] = 2 * i, 2 * i + 1, 2 * n + 1 + p
            value[used], value[used + 1], value[used + 2] = nx, ny, 1.0
            used += 3
            if k < n:
                index[used], index[used + 1] = 2 * k, 2 * k + 1
                value[used], value[used + 1] = -nx, -ny
                used += 2
            away = nx * (state.position[i, 0] - px) + ny * (state.position[i, 1] - py)
            least[r] = planes[p, h, 2] - away
            r += 1
            start[r] = used
    for i in range(n):
        index[used], index[used + 1] = 2 * i, 2 * n
        value[used], value[used + 1] = -1.0, -1.0
        used += 2
        least[r] = state.position[i, 0] + cut_back - table.fit[state.stance[i], 2]
        r += 1
        start[r] = used
    return start, index[:used].copy(), value[:used].copy(), least


def moved_apart(board: Board, state: LayState, cut_back: float) -> tuple[float, LayState]:
    """(overlap left in mm times heft, state) after the move that leaves least weighted overlap."""
    rows = rows_of(board, state, cut_back)
    weights = state.weight[rows.pair[:, 0], rows.pair[:, 1]]
    moved, _ = solved(board, state, cut_back, rows, weights)
    if moved is None:
        return np.inf, state
    return float(_overlap(board.table, board.charts, moved)), moved


def drawn_together(board: Board, state: LayState, cut_back: float) -> LayState:
    """A sound lay, made as short as moves of all items together make it."""
    for _ in range(MOST_ROUNDS):
        rows = rows_of(board, state, cut_back)
        moved, gained = solved(board, state, cut_back, rows)
        if moved is None or gained < DRAWN_IN_MM:
            break
        if _overlap(board.table, board.charts, moved) > 0.0:
            break
        state, cut_back = moved, cut_back + gained
    return state


def mended(board: Board, state: LayState, cut_back: float) -> LayState | None:
    """A sound lay within that length, made of a state that came near a shorter one; None
    when moves of all items together do not make one."""
    drawn = drawn_together(board, state, cut_back)
    return None if drawn is state else drawn


@kernel
def _overlap(table: BoardArrays, charts: Charts, state: LayState) -> float:
    """Bring ``overlap`` up to date; the sum in mm, each times the heft of its pair."""
    table, charts, state = lent(table), lent(charts), lent(state)
    for i in range(len(state.stance)):
        measure(table, charts, state, i)
    return overlap_left(table, state)
