"""A cut as it was really cut: straight across somewhere else, or along edges that were drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stash.errors import InvalidInput
from stash.ledger.bites import SLIVER_MM2, End
from stash.ledger.leftover import worth_a_label
from stash.ledger.shapes import from_polygon, polygon
from stash.model.outline import Point
from stash.store import Stash
from stash.workroom.cuts import CutRecorded, Use, cut_off
from stash.workroom.recorded import Recorded
from stash.workroom.settings import preferences

MOST_CORNERS = 200


def cut_across(
    stash: Stash, code: str, at_mm: float, taken: End, token: str | None = None, *,
    use: Use | None = None,
) -> CutRecorded:
    """It was cut straight across so far from its near end, and ``taken`` is the part used."""
    use = use or Use()
    outline = stash.cuts.get(code).outline
    off_mm = at_mm if taken is End.NEAR else outline.length_mm - at_mm
    if not 0 < at_mm < outline.length_mm:
        raise InvalidInput("not_on_the_cloth", there_length_mm=outline.length_mm, field="at")
    return cut_off(stash, code, off_mm, token, use=replace(use, end=taken))


def cut_along(
    stash: Stash, code: str, ring_mm: Sequence[Point], token: str | None = None, *,
    use: Use | None = None,
) -> CutRecorded:
    """Only what lies inside this ring, in the cut's own frame, is left of it.

    Where it comes apart, the largest part keeps the code and the others become remnants,
    if they are worth a label. A plan named in ``use`` gives up its hold. InvalidInput when
    the ring crosses itself, or takes nothing or everything.
    """
    from shapely import Polygon, get_parts  # loaded with the first such cut only

    use = use or Use()
    if not 3 <= len(ring_mm) <= MOST_CORNERS:
        raise InvalidInput("outline_not_closed", field="ring")
    kept = Polygon(ring_mm)
    if not kept.is_valid:
        raise InvalidInput("outline_crosses", field="ring")
    with stash.act(token):
        outline = stash.cuts.get(code).outline
        cloth = polygon(outline)
        rest = cloth.intersection(kept)
        if cloth.area - rest.area <= SLIVER_MM2:
            raise InvalidInput("bite_takes_nothing", field="ring")
        parts = sorted((p for p in get_parts(rest) if isinstance(p, Polygon)
                        and p.area > SLIVER_MM2), key=lambda part: -part.area)
        if not parts:
            raise InvalidInput("bite_takes_all", field="ring")
        least_mm = preferences(stash).remnant_mm
        others = [part for part in parts[1:] if worth_a_label(part, least_mm)]
        event = stash.cuts.cut_out(
            code, from_polygon(parts[0]), plan=use.plan, despite_hold=use.despite_hold,
            remnants=[(None, from_polygon(part)) for part in others],
            waste_mm2=sum(p.area for p in parts[1:]) - sum(p.area for p in others))
    return Recorded(event=event, now=stash.cuts.card(event.code))
