"""Labels with one finder pattern lost: the other two say where everything lies.

Every way in which two patterns can belong to one symbol is tried on their eight corners;
those that agree are drawn flat with the lost pattern painted in, and read.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations, permutations

import cv2
import numpy as np

from labels.reading.decoders import Decoded
from labels.reading.finders import Finder
from labels.reading.flat import SIDES, Look, corners, eye_corners, read_flat

MOST_PAIRS = 4
MOST_FITS = 8
LARGEST_ERROR_MODULES = 1.2


def read_pairs(grey: np.ndarray, found: list[Finder]) -> list[Decoded]:
    """Symbols read from two of their finder patterns each."""
    for one, other in _pairs(found):
        for side, look in _fits(one, other):
            text = read_flat(grey, side, look)
            if text:
                return [(text, corners(side, look))]
    return []


def _pairs(found: list[Finder]) -> list[tuple[Finder, Finder]]:
    """Patterns alike in size and as far apart as two of one symbol are."""
    rated = []
    for one, other in combinations(found, 2):
        ratio = max(one.size, other.size) / min(one.size, other.size)
        apart = np.linalg.norm(one.middle - other.middle) / (one.size + other.size) * 2
        if ratio < 1.7 and 1.2 < apart < 7:
            rated.append((ratio, one, other))
    rated.sort(key=lambda pair: pair[0])
    return [(one, other) for _, one, other in rated[:MOST_PAIRS]]


def _fits(one: Finder, other: Finder) -> Iterator[tuple[int, Look]]:
    """(modules a side, look) for the ways that explain the eight corners, best first."""
    quads = [_clockwise(one.quad), _clockwise(other.quad)]
    module = (one.size + other.size) / 14
    rated = []
    for side in SIDES:
        known, terms, solve = _placed(side)
        for first, second in np.ndindex(4, 4):
            seen = np.concatenate(
                [np.roll(quads[0], first, axis=0), np.roll(quads[1], second, axis=0)]
            )
            errors = np.abs(terms @ (solve @ seen) - seen).max(axis=(1, 2))
            for n in np.nonzero(errors < LARGEST_ERROR_MODULES * module)[0]:
                rated.append((float(errors[n]), side, known[n], seen))
    rated.sort(key=lambda fit: fit[0])
    for _, side, places, seen in rated[:MOST_FITS]:
        view, _ = cv2.findHomography(places, seen)
        if view is not None:
            yield side, _through(view)


def _through(view: np.ndarray) -> Look:
    return lambda places: cv2.perspectiveTransform(places[None].astype(float), view)[0]


@cache
def _placed(side: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """For each two of the three eyes in either order: places, terms of an affine view, solver."""
    eyes = eye_corners(side)
    known = np.stack([np.concatenate([eyes[a], eyes[b]]) for a, b in permutations(range(3), 2)])
    terms = np.concatenate([known, np.ones((*known.shape[:2], 1))], axis=2)
    return known, terms, np.linalg.pinv(terms)


def _clockwise(quad: np.ndarray) -> np.ndarray:
    """Corners in the order of ``eye_corners``, as a picture with y downwards shows them."""
    off = quad - quad.mean(axis=0)
    return quad[np.argsort(np.arctan2(off[:, 1], off[:, 0]))]
