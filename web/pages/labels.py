"""Printing labels: blank ones to stick first and scan later, or for what is on record."""

from __future__ import annotations

from flask import Blueprint, Response, render_template, request

from labels.address import default_address, tidy
from labels.choose import as_printed, changed, in_place, labels_for
from labels.content import Label, blank
from labels.pdf import Layout, sheet_pdf
from labels.sheets import SHEETS, Sheet, own_grid, roll, sheet_named
from stash.errors import InvalidInput, StashError
from web import forms
from web.errors import status_of
from web.opened import stash, system
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
    chosen = request.args.getlist("code")
    body = render_template(
        "labels/show.html", error=error, typed=request.form if error else None, chosen=chosen,
        cuts=stash().cuts.all(), bins=stash().bins.all(), places=stash().places.names(),
        sheets=[*((name, _(SHEET_WORDS.get(name, name))) for name in SHEETS),
                ("roll", _("A roll of labels")), ("grid", _("Another sheet, by its grid"))],
        layouts=[(layout.value, _(LAYOUT_WORDS.get(layout.value, layout.value)))
                 for layout in Layout],
        address=_address(), shift=stash().settings.get("printer_shift_mm", [0, 0]),
    )
    return body, status_of(error) if error else 200


def _address() -> str | None:
    return tidy(stash().settings.address or default_address())


@pages.post("/")
def pdf():
    """The sheet as a PDF; blank labels are reserved as they are printed."""
    try:
        sheet, start = _sheet(), forms.count("start", _("First free place"), 1, 200)
        next(sheet.positions(1, start))
        labels = _labels()
        layout = Layout(forms.text("layout") or Layout.PLAIN.value)
        content = sheet_pdf(labels, sheet, start, address=_address(), layout=layout)
    except StashError as error:
        return _form(error)
    stash().labels.printed({label.code: as_printed(label) for label in labels})
    return Response(content, mimetype="application/pdf", headers={
        "Content-Disposition": 'attachment; filename="labels.pdf"'})


def _sheet() -> Sheet:
    name = forms.text("sheet") or "a4-24"
    if name == "roll":
        sheet = roll(forms.needed("roll", _("The width of the roll")))
    elif name == "grid":
        sheet = own_grid(forms.needed("grid", _("The grid")))
    else:
        sheet = sheet_named(name)
    across, down = (
        forms.maybe_number(field, _("The printer’s shift"), -20, 20) or 0.0
        for field in ("shift_across", "shift_down")
    )
    if [across, down] != stash().settings.get("printer_shift_mm", [0, 0]):
        stash().settings.set("printer_shift_mm", [across, down])
    return sheet.shifted(across, down)


def _labels() -> list[Label]:
    which = forms.text("which")
    if which == "blank":
        count = forms.count("blank", _("How many blank labels"), 1, 1000)
        return [blank(code) for code in stash().labels.reserve(count, token=forms.token())]
    if which == "place":
        return in_place(stash(), forms.needed("place", _("Place")), system())
    if which == "places":
        return labels_for(stash(), _place_codes(), system())
    if which == "changed":
        if found := changed(stash(), system()):
            return found
        raise InvalidInput(_("Every printed label still says the truth: nothing to print."))
    codes = request.form.getlist("code")
    if not codes:
        raise InvalidInput(_("Tick at least one cut or bin."), field="code")
    return labels_for(stash(), codes, system())


def _place_codes() -> list[str]:
    """Every place's code; a place that had no label gets one."""
    for name in stash().places.names():
        if stash().places.find(name) is None:
            stash().places.receive(name)
    if codes := [place.code for place in stash().places.all()]:
        return codes
    raise InvalidInput(_("No place is on record yet: say where a cut or a bin lies first."))
