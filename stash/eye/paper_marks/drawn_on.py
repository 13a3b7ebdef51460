"""Everything drawn on one piece of paper that a cutter needs: notches and the grain."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from stash.eye.outlines.backdrop import View, from_above
from stash.eye.paper_marks.grain_line import SeenGrain, find_grain
from stash.eye.paper_marks.notches import SeenNotch, find_notches
from stash.model import Outline

CELL_MM = 0.5
MOST_CELLS = 4000
AROUND_MM = 10.0


@dataclass(frozen=True)
class PaperMarks:
    """What was found on a piece, in the frame of its outline: offers, never taken for granted."""

    notches: tuple[SeenNotch, ...] = ()
    grain: SeenGrain | None = None


def paper_marks(views: Sequence[View], outline: Outline) -> PaperMarks:
    """The notches and the grain arrow of a piece laid from (0, 0)."""
    size = outline.length_mm, outline.width_mm
    seen = from_above(views, size, max(CELL_MM, max(size) / MOST_CELLS), AROUND_MM)
    ring = np.array(outline.ring_mm)
    return PaperMarks(find_notches(seen, ring), find_grain(seen, ring))
