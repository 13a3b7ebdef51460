"""Labels that are not flat: round a bolt, or folded. They are unrolled, then read.

The corners of the three finder patterns, twelve points whose place on the symbol is known,
say how the label lies. Each supposed shape (how strongly bent, about which direction; where
folded) makes the picture a linear function of a few terms of the place on the symbol, so
the best view of that shape is one least-squares solution. The shapes that explain the twelve
corners best are drawn flat and read like any other picture.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np

from labels.reading.decoders import Decoded
from labels.reading.finders import Finder, Trio, trios
from labels.reading.flat import SIDES, Look, corners, eye_corners, read_flat

MOST_TRIOS = 2
MOST_VIEWS = 4


@dataclass(frozen=True)
class Bend:
    """A supposed shape: bent through ``arc`` radians, or folded at ``fold`` of the width.

    ``turn`` is the direction across the axis of the bend or fold, in radians from the
    symbol's rows.
    """

    turn: float
    arc: float = 0.0
    fold: float | None = None


NEAR_AXES = [axis + off for axis in (0, np.pi / 2) for off in np.radians((-10, -5, 0, 5, 10))]
BENT = [Bend(turn, arc=np.radians(arc)) for turn in NEAR_AXES for arc in range(20, 171, 15)]
FOLDED = [
    Bend(turn, fold=fold)
    for turn in np.arange(12) * np.pi / 12
    for fold in (-0.25, -0.12, 0.0, 0.12, 0.25)
]


def read_bent(grey: np.ndarray, found: list[Finder]) -> list[Decoded]:
    """Symbols that can be read once they are flat; corners are in ``grey``'s pixels."""
    read: list[Decoded] = []
    for trio in trios(found)[:MOST_TRIOS]:
        for side, look in _views(trio):
            text = read_flat(grey, side, look)
            if text:
                read.append((text, corners(side, look)))
                break
    return read


def _views(trio: Trio) -> Iterator[tuple[int, Look]]:
    """(modules a side, look), those that explain the corners best first."""
    seen = _seen_corners(trio)
    rated = []
    for side in SIDES:
        for shapes, terms, solve in _supposed(side):
            views = solve @ seen
            errors = np.sqrt(((terms @ views - seen) ** 2).sum(axis=2).mean(axis=1))
            for n in np.argsort(errors)[:2]:
                rated.append((float(errors[n]), side, shapes[n], views[n]))
    rated.sort(key=lambda view: view[0])
    for _, side, shape, view in rated[:MOST_VIEWS]:
        yield side, _through(side, shape, view)


def _through(side: int, shape: Bend, view: np.ndarray) -> Look:
    return lambda places: _terms(places, side, shape) @ view


@cache
def _supposed(side: int) -> list[tuple[list[Bend], np.ndarray, np.ndarray]]:
    """(shapes, their terms at the twelve corners, what solves for the view), kept for a side."""
    known = eye_corners(side).reshape(-1, 2)
    stacks = [(s, np.stack([_terms(known, side, shape) for shape in s])) for s in (BENT, FOLDED)]
    return [(shapes, terms, np.linalg.pinv(terms)) for shapes, terms in stacks]


def _terms(places: np.ndarray, side: int, shape: Bend) -> np.ndarray:
    """What the view is linear in, for places on the symbol (modules): rows x terms."""
    centred = (places - side / 2) / side
    across = centred[:, 0] * np.cos(shape.turn) + centred[:, 1] * np.sin(shape.turn)
    along = centred[:, 1] * np.cos(shape.turn) - centred[:, 0] * np.sin(shape.turn)
    one = np.ones_like(across)
    if shape.fold is not None:
        return np.stack([one, across, along, np.maximum(across - shape.fold, 0)], axis=1)
    depth = 1 - np.cos(across * shape.arc)
    # The last term is perspective: what lies deeper is seen smaller.
    return np.stack([one, np.sin(across * shape.arc), along, depth, along * depth], axis=1)


def _seen_corners(trio: Trio) -> np.ndarray:
    """The corners in the order of ``eye_corners``: each quad turned to the symbol's axes."""
    top, right, foot = trio
    axes = np.stack([right.middle - top.middle, foot.middle - top.middle], axis=1)
    ordered = []
    for finder in trio:
        local = np.linalg.solve(axes, (finder.quad - finder.middle).T).T
        angle = np.arctan2(local[:, 1], local[:, 0])
        ordered.append(finder.quad[np.argsort(angle)])
    return np.concatenate(ordered)
