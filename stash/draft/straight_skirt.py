"""A straight skirt: front on the fold, two backs with a vent to walk in; band and zip, or elastic.

The block falls straight from the hip; the vent opens the lower third of what is below it.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.body import Body
from stash.draft.garment import Garment, hem, measure
from stash.draft.skirt_block import (
    ESTIMATES,
    MEASUREMENTS,
    SkirtOptions,
    length_mm,
)
from stash.draft.skirt_pieces import SkirtShape, skirt_pattern
from stash.model import Pattern


@dataclass(frozen=True, kw_only=True)
class StraightSkirtOptions(SkirtOptions):
    """Options of the straight skirt."""

    hem: float = hem(50.0)
    ease: float = measure(
        "ease round the hip: 2 in when the hem is narrow", 20, 300, 50.0,
        source="Burton 1916, Foundation Skirt",
    )


def draft(body: Body, options: StraightSkirtOptions) -> Pattern:
    """The block without flare, with a vent."""
    vent = max(80.0, 0.4 * (length_mm(body, options) - body["waist_to_hip"]))
    return skirt_pattern(body, options, SkirtShape(garment="straight-skirt", flare=0.0, vent=vent))


GARMENT = Garment(
    name="straight-skirt", title="Straight skirt", measurements=MEASUREMENTS,
    estimates=ESTIMATES,
    takes=StraightSkirtOptions,
    draft=draft,
)
