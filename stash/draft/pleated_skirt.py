"""A pleated skirt: straight panels folded into knife or box pleats that take in exactly what the
panels are wider than the waist.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import SKIRTS
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
from stash.draft.garment import Garment, choice, measure
from stash.draft.pleats import FOLDS, Pleats, fold_lines
from stash.errors import InvalidInput
from stash.model import Pattern

USUAL_SHARE = 0.8  # of what shows, where no depth is asked for: common practice, no source
TO_HEM_MM = 0.5  # the lines end this far above the hem's fold: chosen here

PleatKind = Literal["knife", "box"]
PleatCount = Literal["16", "8", "12", "20", "24", "32"]


@dataclass(frozen=True, kw_only=True)
class PleatedSkirtOptions(FullSkirtOptions):
    """Options of the pleated skirt."""

    pleats: PleatKind = choice(PleatKind, "knife pleats that all lie one way, or box pleats")
    count: PleatCount = choice(PleatCount, "how many pleats go round")
    depth: float | None = measure("how deep each pleat folds back", 8, 150)


def pleats_of(body: Body, options: PleatedSkirtOptions) -> Pleats:
    """The pleats: as deep as was asked, else four fifths of what can be, and enough for the hips.

    InvalidInput names the depth that overlaps behind, or that does not open over the hips.
    """
    plain = Pleats(kind=options.pleats, count=int(options.count), depth=0.0,
                   waist=waist_mm(body, options))
    for_hips = (body["hip"] + HIP_EASE_MM - plain.waist) / plain.count / FOLDS[plain.kind]
    usual = min(max(USUAL_SHARE * plain.deepest, for_hips), plain.deepest)
    depth = options.depth or usual
    made = Pleats(kind=plain.kind, count=plain.count, depth=depth, waist=plain.waist)
    if depth > plain.deepest + 1e-6:
        raise InvalidInput(
            "pleats_overlap", depth_measure_mm=depth, number=plain.count,
            most_measure_mm=plain.deepest, field="depth",
        )
    if depth < for_hips - 1e-6:
        raise InvalidInput(
            "pleats_too_shallow", taken_measure_mm=made.taken, least_measure_mm=for_hips,
            field="depth" if options.depth else "hip",
        )
    return made


def draft(body: Body, options: PleatedSkirtOptions) -> Pattern:
    """The panels, each with its share of the pleats."""
    made, count = pleats_of(body, options), int(options.panels)
    down = length_mm(body, options)
    return full_skirt_pattern(body, options, FullSkirt(
        garment="pleated-skirt", waist=made.waist, flat=made.flat, down=down, count=count,
        marks=fold_lines(made, count, down - TO_HEM_MM), wants=SKIRTS,
    ))


GARMENT = Garment(
    name="pleated-skirt", title="Pleated skirt", measurements=MEASUREMENTS,
    estimates=ESTIMATES, takes=PleatedSkirtOptions, draft=draft,
)
