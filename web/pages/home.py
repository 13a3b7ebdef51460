"""The stash: found by words and facets, as a list, to scale or as a table; searches kept."""

from __future__ import annotations

from urllib.parse import parse_qsl, urlencode

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import InvalidInput
from stash.quantity import Quantity, read_length
from stash.units import YARD_MM, System
from stash.workroom import finding
from stash.workroom.cut_orders import CUT_ORDERS
from stash.workroom.finding import FACETS, CutQuery
from web import forms
from web.drawing.rule import extent
from web.facets import facets
from web.formatting import tell
from web.request_stash import stash, system
from web.texts import _

pages = Blueprint("home", __name__)

AT_ONCE = 60
VIEWS = {"scale": "To scale", "list": "Pictures", "table": "Table"}
ASKED = (*["q", "least", "by", "view"], *FACETS)
"""What the page is asked, and what a kept search keeps."""


@pages.get("/")
def show():
    """Search, narrow down, and see."""
    asked = {key: request.args[key] for key in ASKED if request.args.get(key, "").strip()}
    error, least = None, 0.0
    if "least" in asked:
        try:
            least = read_length(
                asked["least"], Quantity.CUT_LENGTH, field="least", system=system())
        except InvalidInput as refused:
            error = refused
    first = max(request.args.get("first", 0, type=int), 0)
    found = finding.cuts(stash(), _query(asked, least), first, AT_ONCE)
    everything = finding.totals(stash())
    view = asked.get("view", "scale")
    return render_template(
        "home/show.html", all=everything, found=found, first=first, at_once=AT_ONCE,
        page=[card.cut for card in found.page], asked=asked, error=error,
        held={c.cut.code: c.holds[0].plan for c in found.page if c.holds},
        extent=extent([everything.longest_mm], _unit_mm()),
        facets=facets(found.counts, asked), view=view if view in VIEWS else "scale",
        views=[(key, _(name)) for key, name in VIEWS.items()],
        orders=[(order.key, _(order.name)) for order in CUT_ORDERS],
        ticking="tick" in request.args, kept=finding.kept(stash()),
        narrowed=[key for key in asked if key not in ("q", "view", "by")],
        query=urlencode(asked), asking=lambda query: dict(parse_qsl(query)),
    ), 422 if error else 200


def _query(asked: dict[str, str], least_mm: float) -> CutQuery:
    return CutQuery(
        words=asked.get("q", ""), order=asked.get("by", ""), least_mm=least_mm,
        chosen=tuple((key, asked[key]) for key in FACETS if key in asked))


@pages.post("/searches/keep")
def keep():
    """Keep a search under a name."""
    asked = dict(parse_qsl(request.form.get("query", "")[:1000]))
    asked = {key: value for key, value in asked.items() if key in ASKED}
    event = finding.keep(
        stash(), forms.needed("search", _("Name")), urlencode(asked), forms.token())
    tell(_("Saved."), undo=event.id)
    return redirect(url_for("home.show", **asked), 303)


@pages.post("/searches/forget")
def forget():
    """Keep it no longer."""
    event = finding.forget(stash(), forms.needed("search", _("Name")), forms.token())
    tell(_("Forgotten."), undo=event.id)
    return redirect(url_for("home.show"), 303)


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
        ("measuring.index", _("Measure by photograph"),
         _("Buttons counted, tape and zips measured, colours compared")),
        ("stocktake.choose", _("Stock-take"), _("Walk a shelf and set the record straight")),
        ("pocket.show", _("In your pocket"), _("A copy to read and record in the shop")),
        ("history.show", _("History"), _("Everything that was recorded, with undo")),
        ("report.show", _("Looking back"), _("Metres and money in and out, and what lies idle")),
        ("devices.show", _("Devices"), _("Phones that may use the stash over the network")),
        ("safekeeping.show", _("Copies"), _("When the last one was made, and where; a backup")),
        ("settings.show", _("Settings"), _("Address, units, cutting, the shop’s widths")),
        ("guide.index", _("Help"), _("Ten short pages, from the first hour to cutting day")),
    ])


def _unit_mm() -> float:
    return YARD_MM if system() is System.INCHES else 1000.0
