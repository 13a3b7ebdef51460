"""An A-line skirt: the straight skirt's block, let out towards the hem."""

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
)
from stash.draft.skirt_pieces import SkirtShape, skirt_pattern
from stash.model import Pattern

EASE = Measure(
    name="ease", about="room round the hip", least_mm=20, most_mm=300, default=50.0
)
FLARE = Measure(
    name="flare", about="let out at each side seam, front and back, at the hem",
    least_mm=20, most_mm=250, default=70.0,
)


def draft(body: Body, options: Options) -> Pattern:
    """The block with its flare; it needs no vent."""
    return skirt_pattern(
        body, options, SkirtShape(garment="a-line-skirt", flare=float(options["flare"]))
    )


GARMENT = Garment(
    name="a-line-skirt", title="A-line skirt", measurements=MEASUREMENTS, estimates=ESTIMATES,
    options=(LENGTH, SEAM, hem(50.0), EASE, FLARE, WAIST, ELASTIC_HOLD, LINING,
             FINISH, *SEAMS),
    draft=draft,
)
