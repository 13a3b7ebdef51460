"""The true diameter of buttons of one size, from rims that their height makes seem larger.

What is seen is the hull of the disc on the page and of the same disc at the button's
height, which seems larger and moved away from the camera's foot. Across the tray the
move differs, so the height comes out together with the radius (least squares on all rims).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from stash.eye.floor.find_sheets import Array
from stash.eye.floor.standpoint import Stand
from stash.eye.rounds.circle import TOWARD, Circles, Seen

TALL_OF_RADIUS = 0.2  # presumed height: this share of the radius and a little (no source)
TALL_LEAST_MM = 1.0
TALL_SPREAD = 0.45  # one standard error of its logarithm
RAY_ERROR_MM = 0.5  # of one ray's rim, neighbours leaning on the same square of the check
# How much too far out a rim is seen: the lens spreads a bright thing's light over the black
# squares beside it. Tuned on seeds that no bench reports.
RIM_BIAS_MM, RIM_BIAS_OF_WHITE_MM = 0.07, 0.23
STEADY_MM = 0.12  # what even many rims leave open
CUT_MM = 0.6


@dataclass(frozen=True)
class TrueSize:
    """Diameter with two standard errors, height, and each middle on the page, all in mm."""

    diameter_mm: float
    error_mm: float
    tall_mm: float
    middle_mm: Array


def true_size(circles: Circles, seen: Seen, stand: Stand, bright: float = 0.3) -> TrueSize:
    """One size for all of the circles, whose middles are given on the tray.

    ``bright`` is their light as a share of the paper's.
    """
    bias = RIM_BIAS_MM + RIM_BIAS_OF_WHITE_MM * bright
    edge = np.where(seen.near(circles), seen.edge_mm, np.nan) - bias
    usual = TALL_LEAST_MM + TALL_OF_RADIUS * float(np.median(circles.radius_mm))
    heights = usual * np.exp(np.linspace(-1.2, 1.2, 49))
    tries = [_at_height(circles, edge, stand, tall) for tall in heights]
    lean = (np.log(heights / usual) / TALL_SPREAD) ** 2
    costs = np.array([cost for *_, cost in tries]) + lean
    best = int(costs.argmin())
    radius, middle, _ = tries[best]
    share = np.exp(-0.5 * (costs - costs[best]))
    radii = np.array([r for r, *_ in tries])
    mean = float((radii * share).sum() / share.sum())
    spread = float(np.sqrt(((radii - mean) ** 2 * share).sum() / share.sum()))
    rays = float(np.isfinite(edge).sum())
    by_rays = 2 * RAY_ERROR_MM / float(np.sqrt(rays + 1))
    error = 2 * float(np.sqrt((2 * spread) ** 2 + STEADY_MM**2 + by_rays**2))
    return TrueSize(float(2 * radius), error, float(heights[best]), middle)


def _at_height(
    circles: Circles, edge: Array, stand: Stand, tall_mm: float
) -> tuple[float, Array, float]:
    """(radius, middles, misfit) that explain the rims best for one height."""
    grown = stand.enlarged(tall_mm) - 1
    middle, radius = circles.middle_mm.copy(), float(np.median(circles.radius_mm)) / (1 + grown)
    known = np.isfinite(edge)
    for _ in range(4):
        moved = (middle - stand.foot_mm) * grown
        beyond = np.maximum(0, moved @ TOWARD.T + grown * radius)
        off = edge + (circles.middle_mm - middle) @ TOWARD.T - beyond - radius
        kept = known & (np.abs(np.nan_to_num(off) - np.nanmedian(off)) < CUT_MM)
        weight = kept.astype(float)
        held = np.einsum("nk,ki,kj->nij", weight, TOWARD, TOWARD) + 0.5 * np.eye(2)
        pulled = np.einsum("nk,ki->ni", np.where(kept, off, 0), TOWARD)
        radius += float((np.where(kept, off, 0)).sum() / max(weight.sum(), 1))
        middle = middle + np.linalg.solve(held, pulled[..., None])[..., 0]
    off = edge + (circles.middle_mm - middle) @ TOWARD.T - beyond - radius
    misfit = np.minimum(np.nan_to_num(off) ** 2, CUT_MM**2)[known].sum() / RAY_ERROR_MM**2
    return radius, middle, float(misfit)
