"""How many sizes lie there: radii that keep together are one size."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
APART_MM = 0.55  # of two radii next to each other in order, to be two sizes
APART_SHARE = 0.05
CLEAR_RIM = 0.7
SPREAD_SHARE = 0.09


def groups(radii_mm: Array, weights: Array | None = None) -> list[NDArray[np.intp]]:
    """Indices of the radii of each size, the commonest size first.

    Sorted radii are parted where the gap between neighbours is wider than measuring errs.
    """
    if not len(radii_mm):
        return []
    order = np.argsort(radii_mm)
    gaps = np.diff(radii_mm[order])
    wide = gaps > np.maximum(APART_MM, APART_SHARE * radii_mm[order][1:])
    parts = np.split(order, np.nonzero(wide)[0] + 1)
    weight = np.ones(len(radii_mm)) if weights is None else weights
    return sorted(parts, key=lambda part: -float(weight[part].sum()))


def one_kind(radii_mm: Array, rim_share: Array) -> bool:
    """Whether those that show most of their rim are of one size, not of sizes that run on."""
    clear = radii_mm[rim_share > CLEAR_RIM]
    if len(clear) < 3:
        return len(groups(radii_mm, rim_share)) == 1
    low, middle, high = np.percentile(clear, [15, 50, 85])
    return bool(high - low < max(APART_MM, SPREAD_SHARE * middle))


def sizes_present(radii_mm: Array, rim_share: Array) -> Sequence[float]:
    """The radii that are there for certain, the commonest first.

    A size needs one whole rim, or several that agree; a rare one must not be what lies
    between or within the common ones.
    """
    sizes: list[float] = []
    parts = groups(radii_mm, rim_share)
    for part in parts:
        total = rim_share[part].sum()
        first = not sizes
        if first or rim_share[part].max() > 0.8 or total > max(2.5, 0.15 * rim_share.sum()):
            sizes.append(float(np.average(radii_mm[part], weights=rim_share[part] ** 2)))
    return sizes
