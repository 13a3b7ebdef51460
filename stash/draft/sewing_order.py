"""In what order a garment is sewn: a short list of steps, each common practice, no source.

A step is a fact; its sentence is made at the edge. What a garment has (darts, a zip, a lining)
decides which steps it gets.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from stash.draft.curtain import CASING_MM, HEADER_MM, SIDE_MM, TAPE_TURN_MM, TURN_MM
from stash.fact import Fact, fact
from stash.model import MarkKind, Part, Pattern, Role

Steps = list[str | Fact]


def order_of_sewing(pattern: Pattern) -> tuple[Fact, ...]:
    """The steps of a draft, altered or not; none for a pattern that came from elsewhere."""
    base = pattern.recipe.base if pattern.recipe else pattern.garment
    sewn = ORDERS.get(base)
    if sewn is None:
        return ()
    snipped = any(p.notches_mm for p in pattern.pieces)
    first = (["sew_knit"] if pattern.wants.stretch_across_pct
             else ["sew_prepare"] if snipped else ["sew_prepare_plain"])
    fused = any(p.role is Role.INTERFACING for p in pattern.pieces)
    pressed = "sew_press" if pattern.wants.stretch_across_pct else "sew_finish_press"
    steps = [*first, *_if(bool(pattern.seams), pressed), *_if(fused, "sew_fuse"),
             *_panels(pattern), *sewn(pattern)]
    return tuple(fact(step) if isinstance(step, str) else step for step in steps)


def _if(holds: bool, *steps: str | Fact) -> Steps:
    return list(steps) if holds else []


def _panels(pattern: Pattern) -> Steps:
    """What alterations left to be joined first."""
    return _if(any("panel seam" in j.a[1] for j in pattern.joins), "sew_panel_seams")


def _has(pattern: Pattern, kind: MarkKind) -> bool:
    return any(m.kind is kind for p in pattern.pieces for m in p.marks)


def _names(pattern: Pattern) -> frozenset[str]:
    return frozenset(p.name for p in pattern.pieces)


def _chose(pattern: Pattern, option: str, *words: str) -> bool:
    return pattern.options.get(option) in words


def _darts(pattern: Pattern) -> Steps:
    return _if(_has(pattern, MarkKind.DART), "sew_darts")


def _pockets(pattern: Pattern) -> Steps:
    return [*_if(_chose(pattern, "pockets", "patch"), "sew_patch_pocket"),
            *_if(_chose(pattern, "pockets", "side"), "sew_side_pockets")]


def _lined(pattern: Pattern) -> Steps:
    return _if(_chose(pattern, "lining", "full"), "sew_lining")


def _waist(pattern: Pattern) -> Steps:
    """Casing, band or facing, as the pieces have it."""
    names = _names(pattern)
    if any(n.endswith("waist facing") for n in names):
        return ["sew_waist_facing"]
    elastic = _chose(pattern, "waist", "elastic")
    if "waistband" in names:
        return ["sew_casing_band" if elastic else "sew_waistband"]
    return ["sew_casing"]


def _trousers(pattern: Pattern) -> Steps:
    fitted = _chose(pattern, "waist", "fitted")
    return [
        *_darts(pattern), *_pockets(pattern), "sew_sides", "sew_inside_legs",
        "sew_crotch_to_fly" if fitted else "sew_crotch", *_if(fitted, "sew_fly"),
        *_lined(pattern), *_waist(pattern), "sew_hems",
    ]


def _skirt(pattern: Pattern) -> Steps:
    fitted = _chose(pattern, "waist", "fitted")
    return [
        *_darts(pattern), *_if(fitted, "sew_back_zip"), *_if(_vented(pattern), "sew_vent"),
        "sew_sides", *_lined(pattern),
        *_waist(pattern), "sew_hems",
    ]


def _vented(pattern: Pattern) -> bool:
    """The centre of the back is marked where a vent is cut on beyond it."""
    return any(m.kind is MarkKind.CENTRE for p in pattern.pieces if p.part is Part.BACK
               for m in p.marks)


def _full_skirt(pattern: Pattern) -> Steps:
    pleated = pattern.garment == "pleated-skirt" or _has(pattern, MarkKind.PLEAT_FOLD)
    return [
        "sew_seams_and_zip", *(["sew_hem_flat", "sew_pleats"] if pleated else ["sew_gathers"]),
        *_lined(pattern), *_waist(pattern), *_if(not pleated, "sew_hems"),
    ]


def _circle(pattern: Pattern) -> Steps:
    fitted = _chose(pattern, "waist", "fitted")
    return ["sew_seams_and_zip" if fitted else "sew_seams", *_waist(pattern), "sew_hang",
            "sew_hems"]


def _revere_shirt(pattern: Pattern) -> Steps:
    return [*_pockets(pattern), "sew_shoulders", "sew_revere_collar", "sew_sleeves_flat",
            "sew_sides_and_sleeves", "sew_hems", "sew_buttons"]


def _yoke_shirt(pattern: Pattern) -> Steps:
    return [
        *_pockets(pattern), *_if(_chose(pattern, "back", "pleat"), "sew_back_pleat"), "sew_yoke",
        "sew_front_bands", "sew_stand_collar", "sew_plackets", "sew_sleeves_flat",
        "sew_sides_and_sleeves", "sew_cuffs", "sew_hems", "sew_buttons",
    ]


def _neck(pattern: Pattern) -> Steps:
    if _chose(pattern, "lining", "full"):
        return ["sew_lining"]
    faced = any("facing" in n for n in _names(pattern))
    return ["sew_neck_facing" if faced else "sew_bound_neck"]


def _tunic(pattern: Pattern) -> Steps:
    return [*_pockets(pattern), "sew_shoulders", *_neck(pattern), "sew_sleeves_flat",
            "sew_sides_and_sleeves", "sew_hems"]


def _bodice(pattern: Pattern) -> Steps:
    sleeves = not _chose(pattern, "sleeve", "none")
    bare = not sleeves and not _chose(pattern, "lining", "full")
    return [
        *_darts(pattern), "sew_eased_shoulders", "sew_sides",
        *_if(sleeves, "sew_set_in_sleeves"), *_if(bare, "sew_armhole_facing"),
    ]


def _fitted_bodice(pattern: Pattern) -> Steps:
    return [*_bodice(pattern), "sew_open_zip", *_neck(pattern), "sew_hems"]


def _dress(pattern: Pattern) -> Steps:
    gathered = _chose(pattern, "skirt", "gathered")
    return [
        *_bodice(pattern), "sew_skirt_sides", *_if(gathered, "sew_gathers"),
        "sew_waist_seam", "sew_back_zip", *_neck(pattern), "sew_hems",
    ]


def _knit_top(pattern: Pattern) -> Steps:
    opens = "shoulder band" in _names(pattern)
    bare = _chose(pattern, "sleeve", "none")
    return [
        "sew_open_shoulder" if opens else "sew_taped_shoulders",
        "sew_open_neckband" if opens else "sew_neckband",
        "sew_armhole_bands" if bare else "sew_sleeves_flat",
        "sew_sides" if bare else "sew_sides_and_sleeves", "sew_stretch_hems",
    ]


def _leggings(_: Pattern) -> Steps:
    return ["sew_inside_legs", "sew_crotch", "sew_casing", "sew_stretch_hems"]


def _robe(pattern: Pattern) -> Steps:
    banded, belt = _chose(pattern, "facing", "band"), not _chose(pattern, "belt", "none")
    return [
        *_pockets(pattern), "sew_shoulders", "sew_sleeves_by_middle",
        *_if(belt, "sew_belt_loops"), "sew_sides_and_sleeves", *_lined(pattern), "sew_hems",
        "sew_neck_band" if banded else "sew_bound_front", *_if(belt, "sew_belt"),
    ]


def _nightshirt(pattern: Pattern) -> Steps:
    buttoned = _chose(pattern, "opening", "buttons")
    return [
        *_pockets(pattern), "sew_slit_placket" if buttoned else "sew_faced_slit",
        "sew_shoulders", *_if(buttoned and "front facing" in _names(pattern), "sew_facing_ends"),
        *_neck(pattern), "sew_sleeves_by_middle", "sew_sides_and_sleeves",
        *_if(_chose(pattern, "cuff", "elastic"), "sew_elastic_cuffs"), "sew_hems",
        *_if(buttoned, "sew_buttons"),
    ]


def _apron(pattern: Pattern) -> Steps:
    if _chose(pattern, "style", "gathered"):
        return [*_pockets(pattern), "sew_apron_parts", "sew_gathers", "sew_apron_band"]
    bound, tapes = _chose(pattern, "edge", "binding"), _chose(pattern, "ties", "tape")
    return [*_pockets(pattern), "sew_apron_bound" if bound else "sew_apron_hemmed",
            "sew_tapes" if tapes else "sew_ties"]


def _bag(pattern: Pattern) -> Steps:
    boxed = _has(pattern, MarkKind.FOLD)
    return [
        "sew_bag_sides", *_if(boxed, "sew_boxed_base"), *_lined(pattern), "sew_bag_top",
        *_if(_chose(pattern, "top", "cord"), "sew_cord"),
        "sew_handle_tapes" if _chose(pattern, "handles", "tape") else "sew_handles",
    ]


def _curtain(pattern: Pattern) -> Steps:
    """Its drops are cut to size, so every figure stands in its step."""
    seam, hem = (float(str(pattern.options[key])) for key in ("seam", "hem"))
    headings = {
        "casing": fact("sew_curtain_casing", turn_small_mm=TURN_MM, header_small_mm=HEADER_MM,
                       down_small_mm=CASING_MM + HEADER_MM, casing_small_mm=CASING_MM),
        "tape": fact("sew_curtain_tape", down_small_mm=TAPE_TURN_MM),
        "tabs": fact("sew_curtain_tabs", seam_small_mm=seam),
    }
    return [
        *_if(bool(pattern.joins), fact("sew_curtain_widths", seam_small_mm=seam)),
        *_lined(pattern), fact("sew_curtain_sides", turn_small_mm=SIDE_MM / 2),
        headings[str(pattern.options["heading"])], "sew_hang",
        fact("sew_curtain_hem", hem_small_mm=hem),
    ]


def _wrap(pattern: Pattern) -> Steps:
    return [{"uncut": "sew_wrap_uncut", "ends": "sew_wrap_ends",
             "all round": "sew_wrap_all_round"}[str(pattern.options["edge"])]]


def _cushion(pattern: Pattern) -> Steps:
    closes = _chose(pattern, "closure", "envelope")
    return ["sew_envelope" if closes else "sew_cushion_closure",
            *_if(_chose(pattern, "edge", "corded"), "sew_cording"), "sew_all_round"]


ORDERS: Mapping[str, Callable[[Pattern], Steps]] = {
    "trousers": _trousers, "shorts": _trousers, "straight-skirt": _skirt, "a-line-skirt": _skirt,
    "gathered-skirt": _full_skirt, "pleated-skirt": _full_skirt, "circle-skirt": _circle,
    "shirt": _revere_shirt, "yoke-shirt": _yoke_shirt, "tunic": _tunic,
    "fitted-bodice": _fitted_bodice, "dress": _dress, "knit-top": _knit_top,
    "leggings": _leggings, "robe": _robe, "nightshirt": _nightshirt, "apron": _apron,
    "tote-bag": _bag, "cushion-cover": _cushion,
    "pillowcase": lambda _: ["sew_pillow_ends", "sew_pillow_folds"],
    "curtain": _curtain, "wrap": _wrap,
}
