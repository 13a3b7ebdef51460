"""All round things on a map of what hides the ground, and what else lies there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.rounds.alike import more_alike
from stash.eye.rounds.circle import TOWARD, Circles, Map, Seen
from stash.eye.rounds.hollow import filled
from stash.eye.rounds.kinds import one_kind, sizes_present
from stash.eye.rounds.leaning import leaning
from stash.eye.rounds.true_circles import MOST_BARE, Judged, beside, chosen, judged, snug, voted
from stash.eye.rounds.votes import rim_of

SMALLEST_MM, LARGEST_MM, STEP_MM = 2.4, 20.0, 0.5
LEAST_RIM = 0.12
EXPLAINED = 0.8  # of a sure one's rim: seen, or hidden by a neighbour that is there too
ALIKE_EXPLAINED = 0.65  # of one that looks like its fellows
ALIKE_APART = 0.8  # of the sum of two radii: faces tell them apart where rims hardly do
HOLES_MM = 1.2
TILTED_TIMES = 1.7  # a button that leans on its shank is seen as an oval


@dataclass(frozen=True)
class RestLimits:
    """From which size on what is left over is something: in mm2, and as a share of the smallest.

    Round things are grown by ``grown_mm`` before what is left over is looked at.
    """

    mm2: float
    share: float
    grown_mm: float


PLAIN_GROUND = RestLimits(5.0, 0.12, 0.9)
CHECKED_GROUND = RestLimits(1.2, 0.015, 0.8)
"""On the tray hardly anything but a thing hides the check, so little of it tells a heap."""


@dataclass(frozen=True)
class Rest:
    """Something that hides the ground and is not one of the circles."""

    middle_mm: tuple[float, float]
    area_mm2: float


@dataclass(frozen=True)
class Found:
    """Circles in mm from the middle of the map's first cell, which of them are sure, the rest."""

    circles: Circles
    seen: Seen
    rim: NDArray[np.float64]
    sure: NDArray[np.bool_]
    rests: tuple[Rest, ...]


def find_rounds(
    hidden: Map, cell_mm: float, look: Map | None = None, limits: RestLimits = PLAIN_GROUND
) -> Found:
    """Round things of one size or of several, told apart where they touch.

    ``hidden`` is 1 where something hides the ground and 0 where it is seen; ``look`` is the
    logarithm of light, by which things of one kind know each other in a heap.
    """
    unfilled, hidden = hidden, filled(hidden, cell_mm)
    rim = rim_of(hidden, cell_mm)
    anywhere = voted(hidden, cell_mm, rim, list(np.arange(SMALLEST_MM, LARGEST_MM, STEP_MM)))
    first = chosen(anywhere)
    radii, shown = anywhere.circles.radius_mm[first], anywhere.rim[first]
    sizes = sizes_present(radii, shown)
    alone = len(sizes) == 1 and one_kind(radii, shown)
    both = snug(hidden, cell_mm, sizes)
    if not alone:
        both = _joined(both, _picked(anywhere, first))
    best = _picked(both, chosen(both))
    sure = _are_sure(best)
    if look is not None and alone:
        best, sure = _with_fellows(hidden, cell_mm, look, best, sure)
    if alone:
        best, sure = _with_leaning(hidden, cell_mm, best, sure, sizes[0])
    return Found(best.circles, best.seen, best.rim, sure,
                 _rests(unfilled, cell_mm, best.circles, limits))


def _are_sure(found: Judged) -> NDArray[np.bool_]:
    return (_explained(found) > EXPLAINED) & (found.rim > LEAST_RIM)


def _with_fellows(
    hidden: Map, cell_mm: float, look: Map, found: Judged, sure: NDArray[np.bool_]
) -> tuple[Judged, NDArray[np.bool_]]:
    """The sure ones, and in place of the others those that look like them."""
    kept = _picked(found, sure)
    middles = more_alike(look, _places(hidden, cell_mm, kept.circles), cell_mm, kept.circles)
    radius = np.full(len(middles), kept.circles.radius_mm.max(initial=1.0))
    alike = judged(hidden, cell_mm, Circles(middles, radius))
    more = _picked(alike, beside(alike.circles, kept.circles, ALIKE_APART))
    more = _picked(more, more.bare < MOST_BARE)
    every = _joined(kept, more)
    rest = _picked(found, ~sure)
    rest = _picked(rest, beside(rest.circles, every.circles))
    every = _joined(every, rest)
    explained = _explained(every)
    known = np.arange(len(every.circles)) < len(kept.circles) + len(more.circles)
    # What the newly known ones explain of a rim counts for the rest, too.
    return every, (known & (explained > ALIKE_EXPLAINED)) | _are_sure(every)


def _with_leaning(
    hidden: Map, cell_mm: float, found: Judged, sure: NDArray[np.bool_], radius_mm: float
) -> tuple[Judged, NDArray[np.bool_]]:
    """And, in place of what is not sure, those that lean on their shank."""
    kept = _picked(found, sure)
    ovals = leaning(_left(hidden, cell_mm, kept.circles, 0.0), cell_mm, radius_mm)
    more = _joined(kept, judged(hidden, cell_mm, ovals))
    rest = _picked(found, ~sure)
    every = _joined(more, _picked(rest, beside(rest.circles, more.circles)))
    return every, np.arange(len(every.circles)) < len(more.circles)


def _picked(found: Judged, which: NDArray[Any]) -> Judged:
    seen = found.seen
    part = Seen(seen.edge_mm[which], seen.beyond[which], seen.bare[which])
    return Judged(found.circles.picked(which), part, found.rim[which], found.bare[which])


def _joined(one: Judged, other: Judged) -> Judged:
    def both(name: str) -> NDArray[Any]:
        return np.concatenate([getattr(one.seen, name), getattr(other.seen, name)])

    circles = Circles(
        np.concatenate([one.circles.middle_mm, other.circles.middle_mm]),
        np.concatenate([one.circles.radius_mm, other.circles.radius_mm]),
    )
    seen = Seen(both("edge_mm"), both("beyond"), both("bare"))
    return Judged(circles, seen, np.concatenate([one.rim, other.rim]),
                  np.concatenate([one.bare, other.bare]))


def _explained(found: Judged) -> NDArray[np.float64]:
    """For each circle: the share of its rim that is seen, or lies by another circle."""
    circles = found.circles
    if not len(circles):
        return np.zeros(0)
    just_out = circles.middle_mm[:, None] + 1.12 * circles.radius_mm[:, None, None] * TOWARD[None]
    gaps = np.hypot(*(just_out[:, :, None] - circles.middle_mm[None, None]).transpose(3, 0, 1, 2))
    by = gaps < circles.radius_mm[None, None] + 0.8
    by[np.arange(len(circles)), :, np.arange(len(circles))] = False
    seen = found.seen.near(circles, TILTED_TIMES)
    return (seen | (by.any(axis=2) & ~found.seen.bare)).mean(axis=1)


def _left(hidden: Map, cell_mm: float, circles: Circles, grown_mm: float) -> NDArray[np.uint8]:
    """1 where something hides the ground outside all circles."""
    left = (hidden > 0.5).astype(np.uint8)
    for (x, y), radius in zip(circles.middle_mm, circles.radius_mm, strict=True):
        at = (round(float(x) / cell_mm), round(float(y) / cell_mm))
        cv2.circle(left, at, round((radius + grown_mm) / cell_mm), 0, -1)
    return left


def _places(hidden: Map, cell_mm: float, circles: Circles) -> NDArray[np.bool_]:
    """Where another middle may lie: its own holes may look like the ground."""
    size = 2 * round(HOLES_MM / cell_mm) + 1
    near = cv2.dilate(_left(hidden, cell_mm, circles, 0.0), np.ones((size, size), np.uint8))
    return _left(near.astype(np.float32), cell_mm, circles, 0.0) > 0


def _rests(
    hidden: Map, cell_mm: float, circles: Circles, limits: RestLimits
) -> tuple[Rest, ...]:
    """What hides the ground outside all circles and is too large to be a speck or a shadow."""
    left = _left(hidden, cell_mm, circles, limits.grown_mm)
    size = 2 * int(0.5 / cell_mm) + 1
    left = cv2.morphologyEx(left, cv2.MORPH_OPEN,
                            cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size)))
    smallest = float(circles.radius_mm.min(initial=4.0))
    least = max(limits.mm2, limits.share * np.pi * smallest**2)
    count, _, stats, middles = cv2.connectedComponentsWithStats(left)
    return tuple(
        Rest((float(middles[i][0]) * cell_mm, float(middles[i][1]) * cell_mm),
             float(stats[i, cv2.CC_STAT_AREA]) * cell_mm**2)
        for i in range(1, count)
        if stats[i, cv2.CC_STAT_AREA] * cell_mm**2 > least
    )


