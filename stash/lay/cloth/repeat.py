"""Repeats: where a piece's origin may lie so that its match points fall on the print.

The lattice starts at (0, 0) of the opened-out cloth: a print recurs every
``lengthwise_mm`` along and ``crosswise_mm`` across; half-drop prints start half a
repeat later in every second column across.
"""

from __future__ import annotations

from math import remainder

import numpy as np

from stash.lay.cloth.spread import SpreadCloth
from stash.lay.cloth.stances import Item, Stance, turned
from stash.model import Point, Repeat, Spread


def placed(point: Point, turn_deg: float, mirrored: bool) -> Point:
    """A point of a piece after mirroring and turning about its origin."""
    x, y = point[0], -point[1] if mirrored else point[1]
    halves, rest = divmod(turn_deg % 360, 180)
    ((x, y),) = turned(((x, y),), rest)
    return (-x, -y) if halves else (x, y)


def off_lattice_mm(along_mm: float, across_mm: float, repeat: Repeat) -> float:
    """How far a step is from the nearest whole repeat, half-drop columns counted."""
    column = round(across_mm / repeat.crosswise_mm) if repeat.crosswise_mm else 0
    off_across = remainder(across_mm, repeat.crosswise_mm) if repeat.crosswise_mm else 0.0
    if not repeat.lengthwise_mm:
        return abs(off_across)
    drop = repeat.lengthwise_mm / 2 if repeat.half_drop and column % 2 else 0.0
    off_along = remainder(along_mm - drop, repeat.lengthwise_mm)
    return max(abs(off_across), abs(off_along))


def phases(
    items: tuple[Item, ...], stances: dict[Stance, int], repeat: Repeat | None, sheet: SpreadCloth
) -> tuple[np.ndarray, np.ndarray]:
    """(phase (s, 2), latticed (n,)): a latticed item's origin plus its phase is on the lattice."""
    phase = np.zeros((len(stances), 2))
    latticed = np.zeros(len(items), np.bool_)
    if repeat is None:
        return phase, latticed
    fold = sheet.fold_mm if sheet.spread is Spread.LENGTHWISE else 0.0
    for k, item in enumerate(items):
        if not item.piece.match_points_mm:
            continue
        latticed[k] = True
        for s in item.stances:
            x, y = placed(item.piece.match_points_mm[0], s.turn_deg, s.mirrored)
            under = s.layers == 2
            phase[stances[s]] = (x, (-y if under else y) + (-fold if under else fold))
    return phase, latticed
