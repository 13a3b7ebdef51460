"""A gathered skirt: straight panels, so many times as wide as the waist, gathered onto a band.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import FLOWING
from stash.draft.full_skirt import (
    ESTIMATES,
    HIP_EASE_MM,
    MEASUREMENTS,
    FullSkirt,
    FullSkirtOptions,
    full_skirt_pattern,
    length_mm,
    waist_mm,
)
from stash.draft.garment import Garment, choice
from stash.model import Mark, MarkKind, Pattern

GatheredFullness = Literal["2", "1.5", "2.5", "3"]


@dataclass(frozen=True, kw_only=True)
class GatheredSkirtOptions(FullSkirtOptions):
    """Options of the gathered skirt."""

    fullness: GatheredFullness = choice(
        GatheredFullness, "flat width of the skirt for one of the waist"
    )


def draft(body: Body, options: GatheredSkirtOptions) -> Pattern:
    """As full as was asked, and never too narrow for the hips."""
    waist, count = waist_mm(body, options), int(options.panels)
    flat = max(float(options.fullness) * waist, body["hip"] + HIP_EASE_MM)
    along_top = ((0.0, 0.0), (0.0, flat / count))
    return full_skirt_pattern(body, options, FullSkirt(
        garment="gathered-skirt", waist=waist, flat=flat, down=length_mm(body, options),
        count=count, marks=(Mark(MarkKind.GATHER, along_top),), wants=FLOWING,
    ))


GARMENT = Garment(
    name="gathered-skirt", title="Gathered skirt", measurements=MEASUREMENTS,
    estimates=ESTIMATES, takes=GatheredSkirtOptions, draft=draft,
)
