"""Every kernel that is called from outside, compiled by what it is called with.

Run as a program, it compiles those that take longest, so that two cores share the work of
the first time: ``python -m stash.lay.compile_ahead`` says the name of each when it is kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numba
import numpy as np

from stash.lay.compiled import Kernel
from stash.lay.nofit import depth, minkowski
from stash.lay.nofit.depth import Charts
from stash.lay.nofit.minkowski import Parts
from stash.lay.proof import cross_sections
from stash.lay.proof.cross_sections import Profiles
from stash.lay.search import bottom_left, linear_programme, overlap, separate
from stash.lay.search.board import BoardArrays
from stash.lay.search.moves import SAMPLES
from stash.lay.search.overlap import LayState

REAL, WHOLE, TRUTH = np.float64, np.int64, np.bool_
Called = tuple[Kernel[..., Any], tuple[Any, ...]]

# One letter an array: its dimensions are the number of letters, its kind the letter.
_KINDS = {"r": REAL, "w": WHOLE, "b": TRUTH, "f": np.float32, "i": np.int32, "u": np.uint64}


def _arrays(*shapes: str) -> list[np.ndarray]:
    return [np.zeros((1,) * len(shape), _KINDS[shape[0]]) for shape in shapes]


TABLE = BoardArrays(*_arrays(
    "ww", "rr", "ww", "w", "w", "rr", "rr", "ww", "rr", "b", "r", "rr"
))
CHARTS = Charts(*_arrays("rr", "w", "rr", "rr", "r", "f", "i", "i"))
STATE = LayState(*_arrays("rr", "w", "rr", "rr", "rr"))
PARTS = Parts(*_arrays("ww", "w", "b"))
PROFILES = Profiles(*_arrays("r", "r", "r", "w", "w"))
ORDER, NUMBERS, LEAST, PAIRS, PLANES, COUNTS = _arrays("w", "u", "r", "ww", "rrr", "w")

# What a first lay needs beside the filling itself, and what every search runs in.
ELSEWHERE: tuple[Called, ...] = (
    (depth._fill_cells, (*CHARTS[:1], *CHARTS[1:4], CHARTS.least, CHARTS.start)),
    (minkowski.outline, (PARTS, PARTS, 1, 1)),
    (separate.separate, (TABLE, CHARTS, STATE, (STATE, LEAST), NUMBERS, SAMPLES, 0.0, 1)),
)
FOR_A_FIRST_LAY: tuple[Called, ...] = (
    (bottom_left.fill, (TABLE, CHARTS, STATE, ORDER, 0.0, (1.0, 1.0))),
    (cross_sections.least_total, (PROFILES, COUNTS, 0.0)),
)
FOR_A_SEARCH: tuple[Called, ...] = (
    (linear_programme._neighbours, (TABLE, STATE)),
    (linear_programme._planes_of, (TABLE, CHARTS, STATE, PAIRS, PLANES)),
    (linear_programme._written, (TABLE, STATE, 0.0, PAIRS, PLANES, COUNTS)),
    (linear_programme._overlap, (TABLE, CHARTS, STATE)),
    (overlap.snapped, (TABLE, 0, 0, 0.0, 0.0, 0.0)),
    (overlap.laid, (TABLE, STATE, 0, 0, 0.0, 0.0)),
)


def compiled(called: tuple[Called, ...]) -> Iterator[str]:
    """Compile each, or fetch what was kept; its name when it is there."""
    typed: Any = numba.typeof
    for kernel, given in called:
        kernel.compile(tuple(typed(value) for value in given))
        yield kernel.__name__


if __name__ == "__main__":
    for name in compiled(ELSEWHERE):
        print(name, flush=True)
