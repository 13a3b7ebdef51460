"""Outlines turned so that a direction runs along x from (0, 0), and the way back onto the floor."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.seen_floor import turned
from stash.model import Outline

FIRST_FLOOR = (0.0, 0.0, 0.0)


def laid(outline: Outline, turn_deg: float) -> tuple[Outline, Array]:
    """(turned so that the direction ``turn_deg`` runs along x, the corner that came to (0, 0))."""
    turn = np.radians(-turn_deg)
    rings = [turned(np.array(r), turn) for r in (outline.ring_mm, *outline.holes_mm)]
    corner = rings[0].min(axis=0)
    moved = [tuple((float(x), float(y)) for x, y in ring - corner) for ring in rings]
    return Outline(moved[0], tuple(moved[1:])), corner


def onto_floor(
    turn_deg: float, corner: Array, pose: tuple[float, float, float] = FIRST_FLOOR
) -> Callable[[Array], Array]:
    """How points of the laid outline come onto the floor of one photograph."""
    def move(points: Array) -> Array:
        up = turned(points + corner, np.radians(turn_deg))
        return turned(up * (1, -1) - pose[:2], -pose[2])

    return move
