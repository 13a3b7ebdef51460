"""Printing labels: blank ones to stick first and scan later, or for what is on record."""

from __future__ import annotations

from flask import Blueprint, Response, render_template, request

from labels.local_name import default_address, tidy
from labels.pdf import Layout, Printing
from labels.printing import WantedLabels, print_sheet
from labels.sheets import SHEETS, LabelSheet, own_grid, roll, sheet_named
from labels.who_answers import silence_at
from stash.errors import InvalidInput, StashError
from stash.workroom import labels as labels_of
from stash.workroom import places, settings
from web import forms
from web.error_pages import status_of
from web.request_stash import reader, stash
from web.texts import _

pages = Blueprint("labels", __name__, url_prefix="/labels")

SHEET_WORDS = {
    "a4-24": "A4, 24 labels of 63.5 × 33.9 mm", "a4-24-wide": "A4, 24 labels of 70 × 37 mm",
    "a4-21": "A4, 21 labels of 63.5 × 38.1 mm", "a4-65": "A4, 65 labels of 38.1 × 21.2 mm",
    "letter-30": "US Letter, 30 labels of 66.7 × 25.4 mm",
}


LAYOUT_WORDS = {
    "plain": "to stick on", "hanging-tag": "a tag with a hole for a pin",
    "fold-over": "folded over the edge of a bolt", "bin-front": "the front of a bin",
    "place-front": "a shelf or a box",
}


@pages.get("/")
def show():
    """Choose what to print and on what."""
    return _form()


def _form(error: StashError | None = None):
    chosen, known = request.args.getlist("code"), settings.preferences(stash())
    address = tidy(known.address or default_address())
    q, ticked = request.args.get("q", ""), request.form.getlist("code") or chosen
    body = render_template(
        "labels/show.html", silence=silence_at(address, served_port=_port()), error=error,
        typed=request.form if error else None, chosen=chosen,
        choice=labels_of.to_choose(stash(), q, ticked), ticked=ticked, q=q,
        places=places.names(stash()),
        sheets=[*((name, _(SHEET_WORDS.get(name, name))) for name in SHEETS),
                ("roll", _("A roll of labels")), ("grid", _("Another sheet, by its grid"))],
        layouts=[(layout.value, _(LAYOUT_WORDS.get(layout.value, layout.value)))
                 for layout in Layout],
        address=address, shift=known.printer_shift_mm,
    )
    return body, status_of(error) if error else 200


def _port() -> int | None:
    """The port that this very request came to."""
    port = request.host.rpartition(":")[2]
    return int(port) if ":" in request.host and port.isdecimal() else None


@pages.post("/")
def pdf():
    """The sheet as a PDF; blank labels are reserved as they are printed."""
    try:
        printing = Printing(
            sheet=_sheet(), start=forms.count("start", _("First free place"), 1, 200),
            layout=_layout(), reader=reader())
        printed = print_sheet(stash(), _wanted(), printing, _shift(), forms.token())
    except StashError as error:
        return _form(error)
    return Response(printed.pdf, mimetype="application/pdf", headers={
        "Content-Disposition": 'attachment; filename="labels.pdf"'})


def _layout() -> Layout:
    typed = forms.text("layout") or Layout.PLAIN.value
    if typed not in tuple(Layout):
        raise InvalidInput("layout_from_list", field="layout")
    return Layout(typed)


def _sheet() -> LabelSheet:
    name = forms.text("sheet") or "a4-24"
    if name == "roll":
        return roll(forms.needed("roll", _("The width of the roll")))
    if name == "grid":
        return own_grid(forms.needed("grid", _("The grid")))
    return sheet_named(name)


def _shift() -> str:
    across, down = (
        forms.maybe_number(field, _("The printer’s shift"), -20, 20) or 0.0
        for field in ("shift_across", "shift_down")
    )
    return f"{across},{down}"


def _wanted() -> WantedLabels:
    which = forms.text("which")
    if which == "blank":
        return WantedLabels(blanks=forms.count("blank", _("How many blank labels"), 1, 1000))
    if which == "place":
        return WantedLabels(place=forms.needed("place", _("Place")))
    if which == "places":
        return WantedLabels(every_place=True)
    if which == "changed":
        return WantedLabels(changed=True)
    codes = request.form.getlist("code")
    if not codes:
        raise InvalidInput("tick_a_label", field="code")
    return WantedLabels(codes=tuple(codes))
