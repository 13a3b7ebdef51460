"""How much a cut is too short, as it is told to the person who will buy or piece it."""

from __future__ import annotations

from math import ceil

from stash.lay.check import TOUCH_MM


def shortfall(short_mm: float) -> float | None:
    """What is short in whole millimetres, near a metre and beyond in centimetres as it is
    read, rounded up, since so much more must be enough; None when length is not short."""
    if short_mm <= 0:
        return None
    step = 1 if short_mm <= 990 else 10
    return float(step * max(1, ceil((short_mm - TOUCH_MM) / step)))
