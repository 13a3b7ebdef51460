"""The stash, each cut drawn against one metre rule."""

from __future__ import annotations

from flask import Blueprint, render_template, request

from stash.errors import InvalidInput
from stash.model import Cut
from stash.quantity import Quantity, read_length
from stash.units import YARD_MM, System
from stash.workroom import cuts as cuts_of
from stash.workroom.cut_orders import CUT_ORDERS, in_order
from web.drawing.rule import extent
from web.request_stash import stash, system
from web.texts import _

pages = Blueprint("home", __name__)

AT_ONCE = 150


@pages.get("/")
def show():
    """Search, narrow down, and see to scale."""
    cards, asked = cuts_of.cards(stash()), request.args
    cuts = [card.cut for card in cards]
    error, least = None, 0.0
    if asked.get("least", "").strip():
        try:
            least = read_length(
                asked["least"], Quantity.CUT_LENGTH, field="least", system=system())
        except InvalidInput as refused:
            error = refused
    shown = in_order(
        (c for c in _found(cuts, asked.get("q", "")) if _passes(c, asked, least)),
        asked.get("by", ""))
    first = max(asked.get("first", 0, type=int), 0)
    page = shown[first : first + AT_ONCE]
    return render_template(
        "home/show.html", cuts=cuts, shown=shown, page=page, first=first, at_once=AT_ONCE,
        kept={k: v for k, v in asked.items() if v and k != "first"},
        error=error, q=asked.get("q", ""),
        total_mm=sum(c.length_mm for c in cuts),
        held={card.cut.code: card.holds[0].plan for card in cards if card.holds},
        extent=extent([c.length_mm for c in cuts], _unit_mm()),
        filtered=any(asked.get(k) for k in ("fibre", "place", "least", "by")) or bool(error),
        fibre=asked.get("fibre", ""), place=asked.get("place", ""),
        least=asked.get("least", ""), by=asked.get("by", ""),
        fibre_names=_names({f.fibre for c in cuts for f in c.cloth.fibres}),
        place_names=_names({c.place for c in cuts if c.place}),
        orders=[(order.key, _(order.name)) for order in CUT_ORDERS],
    ), 422 if error else 200


@pages.get("/more")
def more():
    """Where else there is to go, for the small screen."""
    return render_template("home/more.html", rooms=[
        ("plans.index", _("Plans"), _("What is promised, and to whom")),
        ("shopping.show", _("Shopping"), _("What is truly short, by the width the shop sells")),
        ("patterns.index", _("Patterns"), _("Your own: typed, imported, or traced from a photo")),
        ("drafts.index", _("Drafts"), _("Garments drafted from measurements")),
        ("labels.show", _("Labels"), _("Print sheets, blank or for what is here")),
        ("people.index", _("People"), _("Their measurements")),
        ("places.index", _("Places"), _("Shelves and boxes")),
        ("entry.show", _("Put cuts on record"), _("One after the other: label, photograph, tape")),
        ("spreadsheet.show", _("From a table"),
         _("Cuts and bins from a spreadsheet, and into one")),
        ("stocktake.choose", _("Stock-take"), _("Walk a shelf and set the record straight")),
        ("history.show", _("History"), _("Everything that was recorded, with undo")),
        ("report.show", _("Looking back"), _("Metres and money in and out, and what lies idle")),
        ("devices.show", _("Devices"), _("Phones that may use the stash over the network")),
        ("safekeeping.show", _("Copies"), _("When the last one was made, and where; a backup")),
        ("settings.show", _("Settings"), _("Address, units, cutting, the shop’s widths")),
        ("guide.index", _("Help"), _("Ten short pages, from the first hour to cutting day")),
    ])


def _unit_mm() -> float:
    return YARD_MM if system() is System.INCHES else 1000.0


def _found(cuts: list[Cut], q: str) -> list[Cut]:
    if not q.strip():
        return list(cuts)
    codes = {card.cut.code for card in cuts_of.cards(stash(), words=q)}
    words = q.casefold().split()
    return [
        c for c in cuts
        if c.code in codes or all(w in f"{c.code} {c.place or ''}".casefold() for w in words)
    ]


def _passes(cut: Cut, asked, least_mm: float) -> bool:
    fibre, place = asked.get("fibre"), asked.get("place")
    return (
        cut.length_mm >= least_mm
        and (not place or cut.place == place)
        and (not fibre or any(f.fibre == fibre for f in cut.cloth.fibres))
    )


def _names(values: set[str]) -> list[tuple[str, str]]:
    return [(v, v) for v in sorted(values)]
