"""A straight skirt: front on the fold, two backs with a vent to walk in; band and zip, or elastic.

The block falls straight from the hip; the vent opens the lower third of what is below it.
"""

from __future__ import annotations

from stash.draft.body import Body
from stash.draft.garment import ELASTIC_HOLD, FINISH, SEAM, Garment, Measure, Options, hem
from stash.draft.skirt_block import (
    ESTIMATES,
    LENGTH,
    LINING,
    MEASUREMENTS,
    SEAMS,
    WAIST,
    length_mm,
)
from stash.draft.skirt_pieces import SkirtShape, skirt_pattern
from stash.model import Pattern

EASE = Measure(
    name="ease", about="room round the hip: 2 in when the hem is narrow (Burton 1916)",
    least_mm=20, most_mm=300, default=50.0,
)


def draft(body: Body, options: Options) -> Pattern:
    """The block without flare, with a vent."""
    vent = max(80.0, 0.4 * (length_mm(body, options) - body["waist_to_hip"]))
    return skirt_pattern(body, options, SkirtShape(garment="straight-skirt", flare=0.0, vent=vent))


GARMENT = Garment(
    name="straight-skirt", title="Straight skirt", measurements=MEASUREMENTS,
    estimates=ESTIMATES,
    options=(LENGTH, SEAM, hem(50.0), EASE, WAIST, ELASTIC_HOLD, LINING, FINISH, *SEAMS),
    draft=draft,
)
