"""A bin and its notion, read from a form."""

from __future__ import annotations

from dataclasses import replace

from flask import request

from stash.errors import InvalidInput
from stash.model import Bin, Notion, NotionKind
from stash.model.amounts import AMOUNT, SIZE
from stash.quantity import Quantity
from stash.workroom import places
from web import forms
from web.bin_kinds import kinds
from web.colour_form import colours_from_form
from web.request_stash import stash
from web.texts import _


def suggestions() -> dict:
    """What the form offers."""
    return {"kinds": kinds(), "places": places.names(stash())}


def bin_from_form(code: str = "") -> Bin:
    """The bin that was typed in."""
    try:
        kind = NotionKind(request.form.get("kind", ""))
    except ValueError:
        raise InvalidInput("choose_what_is_in_bin", field="kind") from None
    return Bin(
        code=code, notion=notion_from_form(Notion(kind=kind, name="")),
        amount=amount(kind, "amount"), place=forms.text("place") or None)


def notion_from_form(known: Notion) -> Notion:
    """The notion as the form describes it; its kind stays."""
    return replace(
        known,
        name=forms.kept_text("name", known.name) or forms.needed("name", _("Name")),
        size_mm=forms.maybe_length("size", SIZE[known.kind]),
        colour=_colour(known.colour),
        material=forms.kept_text("material", known.material),
        fusible=forms.ticked("fusible"),
        shortenable=forms.ticked("shortenable"),
        thickness_mm=forms.maybe_length("thickness", Quantity.MARGIN),
        shank=forms.ticked("shank"),
        mass_gsm=forms.maybe_mass("mass"),
        notes=forms.kept_text("notes", known.notes, most=2000) or known.notes,
    )


def _colour(known: str | None) -> str | None:
    said = colours_from_form()
    return known if said is None else next(iter(said), None)


def amount(kind: NotionKind, name: str) -> float:
    """A count of things, or millimetres; nothing is an amount too."""
    if kind.counted:
        return float(forms.count(name, _("How many")))
    return forms.length_or_nothing(name, AMOUNT[kind])
