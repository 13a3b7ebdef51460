"""A fitted bodice with darts and set-in sleeves, open at the centre back: the block itself.

1. Draw the back, then the front with its bust dart and waist darts (``fitted_block``).
2. Measure both armholes and draw the sleeve to them with its ease (``set_in_sleeve``).
3. Draw the facings off the neck (and the armholes where there are no sleeves), or line it.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.body import Body
from stash.draft.cloth_wants import DRESSES
from stash.draft.fitted_pieces import (
    FittedLines,
    FittedOptions,
    bodice_joins,
    bodice_meetings,
    bodice_panels,
    draw_fitted,
    waists_mm,
)
from stash.draft.garment import Garment, hem
from stash.draft.geometry import length
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.model import Need, Pattern, Role
from stash.notions.fastenings import EXACT, hook_need, zip_need
from stash.notions.interfacing import interfacing_need

MEASUREMENTS = ("bust|chest", "waist")
ESTIMATES = (
    "bust", "neck_base", "back_width", "shoulder", "scye_depth", "back_waist", "arm_length",
    "upper_arm", "wrist",
)


@dataclass(frozen=True, kw_only=True)
class FittedBodiceOptions(FittedOptions):
    """Options of the fitted bodice."""

    hem: float = hem(25.0)


def draft(body: Body, options: FittedBodiceOptions) -> Pattern:
    """Draw, then cut out; a zip that opens at its end closes the whole back."""
    drawn = draw(body, options)
    panels = bodice_panels(drawn, options, options.hem)
    pieces = tuple(p.piece() for p in panels)
    joins, finish = _joins(drawn, options), options.finish
    needs: list[Need] = [
        zip_need(length(drawn.back.centre), "centre back", trimmed=EXACT),
        hook_need(1, "neck"), *sewing_needs(joins, finish),
    ]
    if fused := [p for p in pieces if p.role is Role.INTERFACING]:
        needs.append(interfacing_need(fused))
    return Pattern(
        garment="fitted-bodice", pieces=pieces, notions=tuple(needs), seams=seams(joins, finish),
        joins=tuple(bodice_meetings(drawn, panels)), wants=DRESSES,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body, slept_in=False),
    )


def draw(body: Body, options: FittedBodiceOptions) -> FittedLines:
    """Back, front and sleeve to the body's waist."""
    return draw_fitted(body, options, waists_mm(body, options))


def _joins(drawn: FittedLines, options: FittedBodiceOptions) -> list[Join]:
    around = 2 * (drawn.front.waist.sewn_mm + drawn.back.waist.sewn_mm)
    return [*bodice_joins(drawn, options), Join("hem", around, 1, 1)]


GARMENT = Garment(
    name="fitted-bodice", title="Fitted bodice with set-in sleeves", measurements=MEASUREMENTS,
    estimates=ESTIMATES, takes=FittedBodiceOptions, draft=draft,
)
