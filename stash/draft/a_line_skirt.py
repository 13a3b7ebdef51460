"""An A-line skirt: the straight skirt's block, let out towards the hem."""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.body import Body
from stash.draft.garment import Garment, hem, measure
from stash.draft.skirt_block import (
    ESTIMATES,
    MEASUREMENTS,
    SkirtOptions,
)
from stash.draft.skirt_pieces import SkirtShape, skirt_pattern
from stash.model import Pattern


@dataclass(frozen=True, kw_only=True)
class ALineSkirtOptions(SkirtOptions):
    """Options of the A-line skirt."""

    hem: float = hem(50.0)
    flare: float = measure(
        "let out at each side seam, front and back, at the hem", 20, 250, 70.0
    )


def draft(body: Body, options: ALineSkirtOptions) -> Pattern:
    """The block with its flare; it needs no vent."""
    return skirt_pattern(
        body, options, SkirtShape(garment="a-line-skirt", flare=options.flare)
    )


GARMENT = Garment(
    name="a-line-skirt", title="A-line skirt", measurements=MEASUREMENTS, estimates=ESTIMATES,
    takes=ALineSkirtOptions,
    draft=draft,
)
