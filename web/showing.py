"""How values are written on a page, and what every page carries."""

from __future__ import annotations

import secrets

from flask import Flask, flash, get_flashed_messages
from markupsafe import Markup

from stash import units
from stash.fibres import format_composition
from stash.match.notions.wanted import what_to_buy
from stash.model import Bin, Cloth, Notion, NotionKind
from web.bin_kinds import kind_name
from web.drawing import cloth as cloth_drawing
from web.drawing import notion as notion_drawing
from web.drawing.rule import rule
from web.opened import system
from web.texts import _
from web.ways import further, ways


def install(app: Flask) -> None:
    """Give the templates their filters and the parts of the frame."""
    app.jinja_env.filters.update(
        measure=length, width=width, mass=mass, button=units.format_button, amount=amount,
        turn=units.format_turn,
        fibres=fibres, notion_size=notion_size, days=days, bin_amount=bin_amount,
    )
    app.jinja_env.globals.update(
        once=once, notices=notices, rule=lambda mm: rule(mm, system()),
        bar=cloth_drawing.bar, whole=cloth_drawing.whole, swatch=cloth_drawing.swatch,
        notion_drawing=notion_drawing.drawing, kind_name=kind_name, ways=ways, further=further,
        what_to_buy=what_to_buy,
    )


def length(mm: float) -> str:
    """A length in the units this workroom reads."""
    return units.format_length(mm, system())


def width(mm: float) -> str:
    """A width of cloth as shops print it."""
    return units.format_width(mm, system())


def mass(gsm: float | None) -> str:
    """The weight of a cloth."""
    return "" if gsm is None else units.format_mass(gsm, system())


def amount(value: float, kind: NotionKind) -> str:
    """A count of things, or a length of tape."""
    return f"{value:g}" if kind.counted else length(value)


def fibres(cloth: Cloth) -> str:
    """The composition: "55 % flax, 45 % cotton"."""
    return format_composition(cloth.fibres)


def notion_size(notion: Notion) -> str:
    """A notion's size in its trade's unit."""
    if notion.size_mm is None:
        return ""
    if notion.kind in (NotionKind.BUTTON, NotionKind.SNAP):
        return units.format_button(notion.size_mm)
    if notion.kind is NotionKind.ZIP:
        return length(notion.size_mm)
    return _("%(size)s wide", size=length(notion.size_mm))


def bin_amount(held: Bin) -> str:
    """What a bin holds, with its unit."""
    return amount(held.amount, held.notion.kind)


def days(moment: str | None) -> str:
    """Date and minute of an ISO moment."""
    return (moment or "")[:16].replace("T", " ")


def once() -> Markup:
    """The hidden token that makes a form count only once."""
    return Markup('<input type="hidden" name="token" value="%s">') % secrets.token_urlsafe(12)


def tell(text: str, kind: str = "good", undo: object = None) -> None:
    """Say something on the next page; ``undo`` is the event that an Undo button takes back."""
    flash([text, undo], kind)


def notices() -> list[tuple[str, str, object]]:
    """What there is to say at the top of this page."""
    return [(kind, text, undo) for kind, (text, undo) in
            get_flashed_messages(with_categories=True)]
