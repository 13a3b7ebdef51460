"""The best choice among things that exclude each other, proven: a 0/1 programme given to HiGHS."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np

MOST_NODES = 50_000  # a bound that is no clock: ample for hundreds of things, and repeatable
OPTIONS = (
    ("output_flag", False), ("threads", 1), ("random_seed", 1),
    # Worths are integers: nothing can be better by less than one.
    ("mip_rel_gap", 0.0), ("mip_abs_gap", 0.5),
)


@dataclass(frozen=True)
class Row:
    """Of ``things``, each counted with its ``weight``, at least and at most so many."""

    things: Sequence[int]
    weights: Sequence[float]
    least: float = -np.inf
    most: float = np.inf


@dataclass(frozen=True)
class BestChoice:
    """The things chosen, in order; ``proven`` when no other choice is worth more."""

    things: tuple[int, ...]
    proven: bool


def best_choice(
    worths: Sequence[int], rows: Sequence[Row], *, nodes: int = MOST_NODES
) -> BestChoice | None:
    """The choice of greatest worth that keeps all ``rows``; None when none was found.

    After so many ``nodes`` of its tree the search ends with the best it has, not proven.
    """
    if not worths:
        return BestChoice((), proven=True)
    # The plain binding, without types of its own: the dressed one prints a greeting.
    solver = highspy._Highs()  # type: ignore[attr-defined]
    for option, value in OPTIONS:
        solver.setOptionValue(option, value)
    solver.setOptionValue("mip_max_nodes", nodes)
    _pass(solver, worths, rows)
    solver.run()
    info = solver.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    values = solver.getSolution().col_value
    return BestChoice(
        tuple(n for n, value in enumerate(values) if value > 0.5),
        proven=solver.getModelStatus() == highspy.HighsModelStatus.kOptimal,
    )


def _pass(solver: Any, worths: Sequence[int], rows: Sequence[Row]) -> None:
    count = len(worths)
    starts = np.cumsum([0, *(len(row.things) for row in rows)]).astype(np.int32)
    index = np.array([n for row in rows for n in row.things], dtype=np.int32)
    solver.passModel(
        count, len(rows), len(index), int(highspy.MatrixFormat.kRowwise),
        int(highspy.ObjSense.kMaximize), 0.0, np.array(worths, dtype=float),
        np.zeros(count), np.ones(count), np.array([row.least for row in rows], dtype=float),
        np.array([row.most for row in rows], dtype=float), starts[:-1], index,
        np.array([w for row in rows for w in row.weights], dtype=float),
        np.full(count, int(highspy.HighsVarType.kInteger), dtype=np.int32),
    )
