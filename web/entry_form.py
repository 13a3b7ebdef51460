"""What the entry screen says of one cut: typed now, presumed by a word, or as the last one was.

What was typed wins, then what the kind of cloth says, then what the last one said; of a cloth
on record by that name, the record.
"""

from __future__ import annotations

from dataclasses import dataclass

from flask import request

from stash.cloth_kinds import (
    ClothKind,
    by_weight_word,
    cloth_kinds,
    supposed,
    supposed_by_kind,
    usual_widths_mm,
    weight_words,
)
from stash.errors import InvalidInput
from stash.fibres import parse_composition
from stash.model import Cloth, Construction, Cut, Outline
from stash.quantity import Quantity
from stash.workroom import cuts
from web import forms
from web.colour_form import colours_from_form, said_colours
from web.cut_form import WIDEST_MM
from web.formatting import mass, width
from web.request_stash import reader, stash, system
from web.texts import _, headed

NEAR_MM = 0.6
"""A chip is the width on record where it is this near to it."""


@dataclass(frozen=True)
class WidthChip:
    """A usual width that takes one tap: presumed, since nobody measured it."""

    text: str
    exact: str
    chosen: bool


def width_chips(last_mm: float | None) -> list[WidthChip]:
    """The usual widths; the last one's is chosen."""
    return [WidthChip(width(mm), repr(mm), bool(last_mm and abs(mm - last_mm) < NEAR_MM))
            for mm in usual_widths_mm(system())]


def kinds() -> list[tuple[str, str]]:
    """The kinds of cloth to choose from, by name in the reader's language."""
    named = [(kind.name, kind.said(reader().language)) for kind in cloth_kinds()]
    return sorted(named, key=lambda one: one[1].casefold())


def weights() -> list[tuple[str, str, str]]:
    """(word, the word as it is said, the weight that is presumed of it)."""
    return [(one.word, _(one.word), mass(one.presumed_gsm)) for one in weight_words()]


def entered(photo_colour: str | None) -> Cut:
    """The cut that the screen describes; ``photo_colour`` serves where no colour was said."""
    kind = _kind()
    colours = colours_from_form() or ((photo_colour,) if photo_colour else ())
    name = forms.text("cloth") or (forms.text("last_name") if forms.ticked("same") else "")
    name = name or _name(kind, colours)
    if not name:
        raise InvalidInput("cloth_unnamed", field="cloth")
    known = cuts.cloth_named(stash(), name)
    cloth = _typed(known or Cloth(name=name))
    if colours and (known is None or not known.colours):
        cloth = cloth.told(colours=colours)
    if word := forms.text("weight_word"):
        cloth = supposed(cloth, mass_gsm=by_weight_word(word))
    cloth = supposed_by_kind(cloth, kind) if kind else cuts.presumed_by_name(stash(), cloth)
    if known is None:
        cloth = _as_the_last(cloth)
    return Cut(
        code="", cloth=cloth,
        outline=Outline.rectangle(forms.new_length("length"), _width_mm()),
        width_presumed=not forms.text("width"),
        washed=forms.ticked("washed"), place=forms.text("place") or None)


def _kind() -> ClothKind | None:
    chosen = forms.text("kind")
    found = next((kind for kind in cloth_kinds() if kind.name == chosen), None)
    if chosen and found is None:
        raise InvalidInput("not_a_kind_of_cloth", typed=chosen[:40], field="kind")
    return found


def _name(kind: ClothKind | None, colours: tuple[str, ...]) -> str:
    """Where nobody gave it one: dark blue denim."""
    if kind is None:
        return ""
    said = kind.said(reader().language)
    colour = said_colours(colours[:1]) if colours else ""
    return headed(_("%(colour)s %(kind)s", colour=colour, kind=said)) if colour else headed(said)


def _typed(cloth: Cloth) -> Cloth:
    """What was typed or changed on the screen; what stands as it was shown is not."""
    told: dict = {}
    if fibres := forms.edited("fibres"):
        told["fibres"] = parse_composition(fibres)
    if construction := forms.edited("construction"):
        told["construction"] = _construction(construction)
    if (gsm := forms.maybe_mass("mass")) is not None and not forms.untouched("mass"):
        told["mass_gsm"] = gsm
    return cloth.told(**told)


def _as_the_last(cloth: Cloth) -> Cloth:
    """What stands on the screen as the last one's: kept where nothing else is known.

    Its fibres she saw and left; its weight was another cloth's, and is presumed of this one.
    """
    if not cloth.fibres and forms.untouched("fibres") and forms.text("fibres"):
        cloth = cloth.told(fibres=parse_composition(forms.text("fibres")))
    if cloth.construction is None and (made := forms.text("construction")):
        cloth = cloth.told(construction=_construction(made))
    if cloth.mass_gsm is None and (gsm := forms.maybe_mass("mass")) is not None:
        cloth = supposed(cloth, mass_gsm=gsm)
    return cloth


def _construction(typed: str) -> Construction:
    if typed not in tuple(Construction):
        raise InvalidInput("construction_from_list", field="construction")
    return Construction(typed)


def _width_mm() -> float:
    """The width that was typed, else the chip's."""
    if forms.text("width"):
        width_mm = forms.length("width", Quantity.WIDTH)
    elif chip := request.form.get("width_chip", ""):
        width_mm = next((mm for mm in usual_widths_mm(system()) if repr(mm) == chip), 0.0)
    else:
        width_mm = 0.0
    if not width_mm:
        raise InvalidInput("field_empty", label=_("Usable width"), field="width")
    if width_mm > WIDEST_MM:
        raise InvalidInput("cloth_too_wide", most_width_mm=WIDEST_MM, field="width")
    return width_mm
