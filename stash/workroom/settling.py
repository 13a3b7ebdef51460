"""The one measurement that settles a figure which was presumed of a cloth, put on record.

The weight is settled by the scale (see ``weighing.weigh_swatch``), the shrinkage by a swatch
measured before and after its wash, the making by a look, the width by the tape.
"""

from __future__ import annotations

from stash.errors import InvalidInput
from stash.ledger import Event, Kind
from stash.ledger.shapes import resized
from stash.model import Construction, ShrinkStatus
from stash.store import Stash
from stash.workroom.figures import figure_of, keep_figure

LEAST_SWATCH_MM = 50.0
"""A shorter swatch shows no shrinkage: half a millimetre is a hundredth of it."""
MOST_LOST, MOST_GROWN = 50.0, -20.0  # per cent that any cloth is let lose, as on record
Sides = tuple[float, float]


def settle_shrinkage(
    stash: Stash, code: str, before_mm: Sides, after_mm: Sides, token: str | None = None
) -> Event:
    """A swatch (along, across) before and after its wash: what the cloth of a cut loses."""
    if min(before_mm) < LEAST_SWATCH_MM:
        raise InvalidInput("swatch_too_short", least_mm=LEAST_SWATCH_MM, field="before_along")
    along, across = (round(100 * (1 - after / before), 1)
                     for before, after in zip(before_mm, after_mm, strict=True))
    for lost in (along, across):
        if not MOST_GROWN <= lost <= MOST_LOST:
            raise InvalidInput("swatch_lost_too_much", lost_pct=lost, field="after_along")
    cloth = stash.cuts.get(code).cloth.told(
        shrink_along_pct=along, shrink_across_pct=across, shrink_status=ShrinkStatus.MEASURED,
        shrink_from=None)
    return stash.cloths.correct(code, cloth, token)


def settle_width(
    stash: Stash, code: str, width_mm: float, token: str | None = None
) -> Event:
    """Somebody measured across a cut; how its length is known stays as it was."""
    with stash.act(token) as act:
        cut = stash.cuts.get(code)
        known = figure_of(stash, cut.code)
        stash.cuts.remeasure(cut.code, resized(cut.outline, cut.length_mm, width_mm))
        if known is not None:
            keep_figure(stash, cut.code, known, Kind.REMEASURE)
    done = act.event or act.earlier
    assert done is not None
    return done


def settle_making(
    stash: Stash, code: str, construction: Construction, token: str | None = None
) -> Event:
    """Somebody looked: the cloth of a cut is woven, knitted or bonded."""
    cloth = stash.cuts.get(code).cloth.told(construction=construction)
    return stash.cloths.correct(code, cloth, token)
