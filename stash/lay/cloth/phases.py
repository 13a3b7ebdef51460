"""Where an item's origin may lie so that its match points fall on the print."""

from __future__ import annotations

import numpy as np

from stash.lay.cloth.repeat import placed
from stash.lay.cloth.spread import SECOND, SpreadCloth
from stash.lay.cloth.stances import Item, Stance
from stash.model import Repeat, Spread


def phases(
    items: tuple[Item, ...], stances: dict[Stance, int], repeat: Repeat | None, sheet: SpreadCloth
) -> tuple[np.ndarray, np.ndarray]:
    """(phase (s, 2), latticed (n,)): a latticed item's origin plus its phase is on the lattice."""
    phase = np.zeros((len(stances), 2))
    latticed = np.zeros(len(items), np.bool_)
    if repeat is None:
        return phase, latticed
    for k, item in enumerate(items):
        if not item.piece.match_points_mm:
            continue
        latticed[k] = True
        for s in item.stances:
            x, y = placed(item.piece.match_points_mm[0], s.turn_deg, s.mirrored)
            phase[stances[s]] = _phase(x, y, sheet, under=s.layers == SECOND)
    return phase, latticed


def _phase(x: float, y: float, sheet: SpreadCloth, *, under: bool) -> tuple[float, float]:
    """From an origin in the working frame to its match point on the print. Seen through the
    cloth the print runs the other way, which is a lattice too."""
    fold = sheet.fold_mm or 0.0
    if sheet.spread is Spread.LENGTHWISE:
        return (x, -y - fold) if under else (x, y + fold)
    return (-x - 2 * fold, y) if under else (x, y)
