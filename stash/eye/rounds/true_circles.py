"""Which circles lie there: those that show most of their rim, none of them in another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stash.eye.rounds.circle import Circles, Map, Seen, fitted, looked_at
from stash.eye.rounds.inside import snug_middles
from stash.eye.rounds.votes import Rim, middles

LEAST_RIM = 0.22
MOST_BARE = 0.12
APART = 0.86  # of the sum of two radii: a tilted button reaches over its neighbour
ROUNDS = 3


@dataclass(frozen=True)
class Judged:
    """Circles, what their rays meet, and for each the share of its rim that is seen."""

    circles: Circles
    seen: Seen
    rim: NDArray[np.float64]
    bare: NDArray[np.float64]


def judged(hidden: Map, cell_mm: float, circles: Circles) -> Judged:
    """The circles held against the map."""
    seen = looked_at(hidden, cell_mm, circles)
    return Judged(circles, seen, seen.near(circles).mean(axis=1), seen.bare.mean(axis=1))


def voted(hidden: Map, cell_mm: float, rim: Rim, radii_mm: Sequence[float]) -> Judged:
    """Circles of any of these radii that the rim votes for, each moved to where it fits best."""
    size = hidden.shape[1] * cell_mm, hidden.shape[0] * cell_mm
    found = [(m, r) for r in radii_mm for m in [middles(rim, r, size)] if len(m)]
    return _settled(hidden, cell_mm, _circles(found), free_radius=True)


def snug(hidden: Map, cell_mm: float, radii_mm: Sequence[float]) -> Judged:
    """Circles of just these radii wherever one is wholly hidden, moved to where it fits best."""
    found = [(m, r) for r in radii_mm for m in [snug_middles(hidden, cell_mm, r)] if len(m)]
    return _settled(hidden, cell_mm, _circles(found), free_radius=False)


def _circles(found: Sequence[tuple[NDArray[np.float64], float]]) -> Circles:
    if not found:
        return Circles(np.zeros((0, 2)), np.zeros(0))
    return Circles(
        np.concatenate([m for m, _ in found]),
        np.concatenate([np.full(len(m), r) for m, r in found]),
    )


def _settled(hidden: Map, cell_mm: float, circles: Circles, free_radius: bool) -> Judged:
    for _ in range(ROUNDS if len(circles) else 0):
        circles = fitted(circles, looked_at(hidden, cell_mm, circles), free_radius)
        circles = circles.picked(circles.radius_mm > 1.0)
    return judged(hidden, cell_mm, circles)


def chosen(found: Judged, already: Circles | None = None) -> NDArray[np.intp]:
    """Indices of circles that can lie beside each other, the best seen first."""
    score = found.rim - 3.0 * found.bare + 0.002 * found.circles.radius_mm
    order = np.argsort(-score)
    middle, radius = found.circles.middle_mm, found.circles.radius_mm
    taken_at = [] if already is None else list(already.middle_mm)
    taken_r = [] if already is None else list(already.radius_mm)
    kept = []
    for i in order:
        if found.rim[i] < LEAST_RIM or found.bare[i] > MOST_BARE:
            continue
        if taken_at:
            gaps = np.hypot(*(np.array(taken_at) - middle[i]).T)
            if (gaps < APART * (np.array(taken_r) + radius[i])).any():
                continue
        kept.append(i)
        taken_at.append(middle[i])
        taken_r.append(radius[i])
    return np.array(kept, dtype=np.intp)


def beside(circles: Circles, already: Circles, apart: float = APART) -> NDArray[np.intp]:
    """Indices, in the order given, of circles that can lie beside those already there.

    ``apart`` is the least share of the sum of two radii that their middles lie apart.
    """
    middle, radius = list(already.middle_mm), list(already.radius_mm)
    kept = []
    for i, (spot, size) in enumerate(zip(circles.middle_mm, circles.radius_mm, strict=True)):
        gaps = np.hypot(*(np.array(middle).reshape(-1, 2) - spot).T)
        if (gaps >= apart * (np.array(radius) + size)).all():
            kept.append(i)
            middle.append(spot)
            radius.append(size)
    return np.array(kept, dtype=np.intp)
