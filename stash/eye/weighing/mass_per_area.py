"""What a square metre of a cloth weighs: from a swatch, a recorded cut, or the label."""

from __future__ import annotations

from math import hypot

from stash.eye.weighing.scale import Scale, quotient
from stash.model.measured import Measured, Origin

LABEL_SHARE = 0.05
"""A label's mass is within a twentieth of the truth (common practice, no source)."""
EDGE_MM = 2.0
"""How far a cut's tape measure is out along each side (two standard errors; no source)."""
SWATCH_EDGE_MM = 1.0


def by_label(mass_gsm: float) -> Measured:
    """The figure on a label, in g/m2."""
    return Measured(value=mass_gsm, error=LABEL_SHARE * mass_gsm, origin=Origin.PRESUMED)


def by_swatch(length_mm: float, width_mm: float, grams: float, scale: Scale) -> Measured:
    """A rectangle cut out and weighed, in g/m2."""
    area = Measured(
        value=length_mm * width_mm / 1e6,
        error=length_mm * width_mm / 1e6 * hypot(SWATCH_EDGE_MM / length_mm,
                                                 SWATCH_EDGE_MM / width_mm),
        origin=Origin.MEASURED)
    return quotient(scale.reading(grams), area, Origin.WEIGHED)


def by_cut(area_mm2: float, grams: float, scale: Scale) -> Measured:
    """A cut whose outline is on record, weighed, in g/m2: the best swatch there is."""
    side = area_mm2**0.5
    area = Measured(value=area_mm2 / 1e6, error=area_mm2 / 1e6 * 1.4 * EDGE_MM * 2 / side,
                    origin=Origin.MEASURED)
    return quotient(scale.reading(grams), area, Origin.WEIGHED)
