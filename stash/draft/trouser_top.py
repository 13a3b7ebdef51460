"""The top of trousers and shorts: a casing or band, or facings in a fitted band's place.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Mapping

from stash.draft.darts import sewn_length
from stash.draft.edge_facing import FacingCut
from stash.draft.garment import allowances
from stash.draft.geometry import back
from stash.draft.legs import Legs
from stash.draft.panel import Cutting, Panel
from stash.draft.trouser_waist import BAND_MM, ELASTIC_MM, UNDERLAP_MM, LegOptions
from stash.draft.waist_facing import WAIST_FACING_MM, PanelTop, waist_facing
from stash.draft.waistband import from_centre_front, waistband
from stash.model import Joined, MarkKind, Part
from stash.notions.elastic import casing_mm


def waist_panels(drawn: Legs, options: LegOptions) -> list[Panel]:
    """A band doubled over, in one piece or pieced at the side seams; facings; or nothing where
    the casing is cut on.
    """
    fitted = options.waist == "fitted"
    if not fitted and options.waistband == "cut-on":
        return []
    if fitted and options.top == "facing":
        return _facings(drawn, options)
    depth = BAND_MM if fitted else casing_mm(ELASTIC_MM)
    waist = drawn.waist_mm
    around = waist + (UNDERLAP_MM if fitted else 0.0)
    if options.waistband == "pieced":
        half = [(MarkKind.CENTRE, waist / 4)]
        band = waistband((around / 2, depth), options.seam, half, 2)
    else:
        front = sewn_length(drawn.front.waist, drawn.front_darts)
        stations = from_centre_front(front, waist, underlap=fitted)
        band = waistband((around, depth), options.seam, stations)
    return [band, band.fused("waistband interfacing", band.cutting.quantity)] if fitted else [band]


def _facings(drawn: Legs, options: LegOptions) -> list[Panel]:
    """Front and back, as pairs; the front's ends at the fly, the back's in the seat seam."""
    allow, panels = allowances(options), []
    pair = Cutting(quantity=2, pair=True, part=Part.FACING)
    for name, d, taken in (
        ("front", drawn.front, drawn.front_darts), ("back", drawn.back, drawn.back_darts),
    ):
        cut = FacingCut(name=f"{name} waist facing", deep_mm=WAIST_FACING_MM, cutting=pair)
        facing = waist_facing(PanelTop(
            waist=d.waist, side=d.side, darts=taken, centre=back(d.crotch),
            allow=(allow.seam, allow.at("side"), allow.at("crotch")),
        ), cut)
        panels += [facing, facing.fused(f"{cut.name} interfacing", 2, pair=True)]
    return panels


def waist_meetings(drawn: Legs, by_name: Mapping[str, Panel]) -> list[Joined]:
    """What the waist is sewn to: the band, or each facing to its panel."""
    halves = (("front", drawn.front, drawn.front_darts), ("back", drawn.back, drawn.back_darts))
    if "waistband" in by_name:
        return [
            Joined((name, "waist"), ("waistband", "side 2"), half, half)
            for name, d, taken in halves for half in [sewn_length(d.waist, taken)]
        ]
    return [
        Joined((faced.name, "waist"), (name, "waist"), faced.length("waist"),
               sewn_length(d.waist, taken))
        for name, d, taken in halves if (faced := by_name.get(f"{name} waist facing"))
    ]
