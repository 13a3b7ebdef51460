"""Numbers in order, for kernels: the library's own sort takes longer to compile than all of
the rest of a fill."""

from __future__ import annotations

import numpy as np

from stash.lay.compiled import inner


@inner
def ascending(values: np.ndarray, count: int) -> np.ndarray:
    """The places of the first ``count`` values, least first; of equals, the one that came first.

    A merge sort from below: runs of 1, 2, 4... are merged from one row into the other.
    """
    rows = np.empty((2, count), np.int64)
    for k in range(count):
        rows[0, k] = k
    run, row = 1, 0
    while run < count:
        for low in range(0, count, 2 * run):
            middle, end = min(low + run, count), min(low + 2 * run, count)
            a, b = low, middle
            for k in range(low, end):
                first = b >= end
                if a < middle and b < end:
                    first = values[rows[row, a]] <= values[rows[row, b]]
                if first:
                    rows[1 - row, k] = rows[row, a]
                    a += 1
                else:
                    rows[1 - row, k] = rows[row, b]
                    b += 1
        run, row = 2 * run, 1 - row
    ordered: np.ndarray = rows[row]
    return ordered
