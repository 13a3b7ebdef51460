"""A cut and its cloth, read from a form; what is left empty comes from the cloth on record."""

from __future__ import annotations

import json
import math
from dataclasses import replace

from flask import request

from stash.cloth_kinds import by_weight_word, supposed
from stash.errors import InvalidInput
from stash.fibres import parse_composition
from stash.model import Cloth, Construction, Cut, Outline, Repeat, ShrinkStatus
from stash.model.came import parse_came
from stash.quantity import Quantity
from stash.units import LONGEST_MM
from stash.workroom import cuts, places
from stash.workroom.cuts import Bite, End, LongSide
from web import forms
from web.colour_form import colours_from_form
from web.request_stash import stash
from web.texts import _

WIDEST_MM = 5000.0


def suggestions() -> dict:
    """What the form offers while one types."""
    return {
        "cloths": cuts.cloth_names(stash()), "places": places.names(stash()),
        "ends": ends(), "edges": edges(),
    }


def ends() -> list[tuple[str, str]]:
    """The ends of a cut, as its drawing shows them."""
    return [(End.NEAR.value, _("the near end, on the left")),
            (End.FAR.value, _("the far end, on the right"))]


def edges() -> list[tuple[str, str]]:
    """The edges of a cut, as its drawing shows them."""
    return [(LongSide.LEFT.value, _("the upper edge of the drawing")),
            (LongSide.RIGHT.value, _("the lower edge of the drawing"))]


def cut_from_form(code: str = "") -> Cut:
    """The cut that was typed in."""
    name = forms.needed("cloth", _("Cloth"))
    known = cuts.cloth_named(stash(), name)
    width = forms.length("width", Quantity.WIDTH)
    if width > WIDEST_MM:
        raise InvalidInput("cloth_too_wide", most_width_mm=WIDEST_MM, field="width")
    cloth = cloth_from_form(known or Cloth(name=name))
    if word := forms.text("weight_word"):
        cloth = supposed(cloth, mass_gsm=by_weight_word(word))
    return Cut(
        code=code,
        cloth=cuts.presumed_by_name(stash(), cloth),
        outline=Outline.rectangle(forms.new_length("length"), width),
        washed=forms.ticked("washed"),
        place=forms.text("place") or None,
        acquired=parse_came(came) if (came := forms.text("acquired")) else None,
        keep_for=forms.text("keep_for") or None,
    )


def cloth_from_form(known: Cloth) -> Cloth:
    """The cloth on record, changed by what was filled in."""
    changes: dict = {}
    if name := forms.edited("name"):
        changes["name"] = name
    if fibres := forms.edited("fibres"):
        changes["fibres"] = parse_composition(fibres)
    if construction := forms.text("construction"):
        if construction not in tuple(Construction):
            raise InvalidInput("construction_from_list", field="construction")
        if construction != known.construction:
            changes["construction"] = Construction(construction)
    if (mass := forms.maybe_mass("mass")) is not None and not forms.untouched("mass"):
        changes["mass_gsm"] = mass
    if (colours := colours_from_form()) is not None:
        changes["colours"] = colours
    for name, attribute, label in (
        ("shrink_along", "shrink_along_pct", _("Shrinkage")),
        ("shrink_across", "shrink_across_pct", _("Shrinkage")),
        ("stretch", "stretch_across_pct", _("Stretch")),
        ("stretch_along", "stretch_along_pct", _("Stretch")),
    ):
        most = 300 if name.startswith("stretch") else 40
        if (value := forms.maybe_number(name, label, 0, most)) is not None:
            changes[attribute] = value
            if name.startswith("shrink") and _told_anew(known, attribute, value):
                changes |= {"shrink_status": ShrinkStatus.MEASURED, "shrink_from": None}
    if repeat := _repeat(known.repeat):
        changes["repeat"] = repeat
    if care := forms.edited("care"):
        changes["care"] = care
    if (price := forms.maybe_price("price", _("Price"))) is not None:
        changes["price_minor_per_m"] = price
    ticked = {name: value for name, value in _ticks(known).items()
              if value != getattr(known, name)}
    return known.told(**changes, **ticked)


def _told_anew(known: Cloth, attribute: str, value: float) -> bool:
    """The figure was typed, not merely shown: 0 of a cloth nobody measured says nothing new."""
    return value != getattr(known, attribute) or "facts" not in request.form


def _known_or_ticked(name: str, known: bool | None) -> bool | None:
    """A tick says yes; an empty box says no only of what was known, else nothing."""
    return forms.ticked(name) or (None if known is None else False)


def _ticks(known: Cloth) -> dict:
    """A tick adds what it says; on the page of facts an empty box also takes it away."""
    if "facts" in request.form:
        return {
            "one_way": forms.ticked("one_way"), "opaque": _opaque(known),
            "pile": _known_or_ticked("pile", known.pile),
            "dry_clean_only": _known_or_ticked("dry_clean_only", known.dry_clean_only),
        }
    ticks = {}
    if forms.ticked("one_way"):
        ticks["one_way"] = True
    if forms.ticked("sheer"):
        ticks["opaque"] = False
    for name in ("pile", "dry_clean_only"):
        if forms.ticked(name):
            ticks[name] = True
    return ticks


def _opaque(known: Cloth) -> bool | None:
    """A tick taken away makes it opaque; one that was never there says nothing."""
    if forms.ticked("sheer"):
        return False
    return True if known.opaque is False else known.opaque


def _repeat(known: Repeat | None) -> Repeat | None:
    along, across = (
        forms.maybe_length(name, Quantity.REPEAT) for name in ("repeat_along", "repeat_across"))
    if along is None and across is None:
        return None
    was = known or Repeat()
    return replace(
        was,
        lengthwise_mm=was.lengthwise_mm if along is None else along,
        crosswise_mm=was.crosswise_mm if across is None else across,
    )


MOST_BITES = 6
"""So many missing parts are told at once."""


def bite(more: str = "") -> Bite:
    """What is missing of a cut: where it lies, and how large it is; ``more`` ends each name."""
    end, edge = forms.text(f"end{more}"), forms.text(f"edge{more}")
    return Bite(
        end=End(end) if end in tuple(End) else None,
        edge=LongSide(edge) if edge in tuple(LongSide) else None,
        length_mm=forms.maybe_length(f"part_length{more}", Quantity.CUT_LENGTH),
        width_mm=forms.maybe_length(f"part_width{more}", Quantity.WIDTH),
        from_near_mm=forms.maybe_length(f"from_near{more}", Quantity.CUT_LENGTH) or 0.0,
        from_right_mm=forms.maybe_length(f"from_right{more}", Quantity.WIDTH) or 0.0,
    )


def ring_of(text: str) -> tuple[tuple[float, float], ...]:
    """Corners in millimetres, as the drawing's script sends them: [[x, y], ...]."""
    try:
        corners = tuple((float(x), float(y)) for x, y in json.loads(text))
    except (ValueError, TypeError, RecursionError):
        raise InvalidInput("outline_not_closed", field="ring") from None
    if not all(math.isfinite(v) and abs(v) <= LONGEST_MM for corner in corners for v in corner):
        raise InvalidInput("outline_not_closed", field="ring")
    return corners


def bites_from_form() -> tuple[Bite, ...]:
    """Everything that is missing of a cut; nothing, as a rule."""
    endings = ("", *(f"-{n}" for n in range(1, MOST_BITES)))
    return tuple(
        bite(more) for more in endings
        if forms.text(f"part_length{more}") or forms.text(f"part_width{more}"))
