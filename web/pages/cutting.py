"""The cutting table: what to fetch, how to spread it, and pieces ticked as they are cut."""

from __future__ import annotations

from flask import Blueprint, Response, redirect, render_template, request, url_for

from stash.errors import InvalidInput, StashError
from stash.model import Spread
from stash.workroom.cutting import cut_plan
from stash.workroom.cutting_day import CuttingDay, apart, cutting_day
from stash.workroom.questions.drawing import STYLE, in_page
from stash.workroom.rag import rag_of, said_of
from web import forms
from web.error_pages import status_of, told
from web.formatting import tell
from web.label_lookup import of_code, payload_of
from web.pages.scan import read_photos
from web.request_stash import reader, stash
from web.texts import _

pages = Blueprint("cutting", __name__, url_prefix="/cutting")

SPREADS = {
    Spread.OPEN: "open, in a single layer, right side up",
    Spread.LENGTHWISE: "folded lengthwise, right sides together, the fold towards you",
    Spread.CROSSWISE: "folded crosswise, right sides together, the fold at the far end",
}
FOOT = {
    Spread.OPEN: "Begin at the near end, the left of the drawing, and measure across from the "
                 "selvedge at its foot.",
    Spread.LENGTHWISE: "Begin at the near end, the left of the drawing, and measure across from "
                       "the selvedges at its head, towards the fold.",
    Spread.CROSSWISE: "Begin at the near end, the left of the drawing, and measure across from "
                      "the selvedge at its foot.",
}


@pages.get("/<path:name>")
def show(name: str):
    """The table, for one plan."""
    return _page(name)


def _page(name: str, error: StashError | None = None):
    day = cutting_day(stash(), name)
    how = {table.code: (_(SPREADS[table.laid.lay.spread]), _(FOOT[table.laid.lay.spread]))
           for table in day.tables}
    drawn = {table.code: in_page(table.laid, f"piece-{table.code}", reader())
             for table in day.tables}
    fetched = request.args.getlist("fetched")
    return render_template(
        "cutting/show.html", day=day, how=how, drawn=drawn, error=error,
        typed=request.form if error else None, fetched=fetched, wanted=_wanted(day),
        strangers=[of_code(code) for code in fetched if code not in _wanted(day)],
    ), status_of(error) if error else 200


def _wanted(day: CuttingDay) -> dict[str, str]:
    """What is to be fetched: the names by their codes."""
    return {table.code: table.laid.cut.cloth.name for table in day.tables} | {
        one.bin.code: one.bin.notion.name for one in day.bins}


@pages.get("/drawing.css")
def style():
    """The colours of drawings inside a page."""
    return Response(STYLE, mimetype="text/css", headers={"Cache-Control": "max-age=3600"})


@pages.post("/<path:name>/fetched")
def fetched(name: str):
    """What lies on the table, typed or photographed: is it what this plan wants?"""
    try:
        if typed := forms.text("code"):
            codes = [str(payload_of(typed).code)]
        else:
            codes, hint = read_photos()
            if not codes:
                raise InvalidInput(hint or "no_label_in_photograph")
    except StashError as error:
        return _page(name, error)
    known = dict.fromkeys([*request.form.getlist("fetched"), *codes])
    return redirect(url_for("cutting.show", name=name, fetched=list(known), _anchor="fetch"), 303)


@pages.post("/<path:name>")
def record(name: str):
    """What was ticked is cut; what was not stays held."""
    pieces, every = request.form.getlist("piece"), forms.count("pieces", _("Pieces"))
    try:
        if not pieces:
            tell(_("Tick the pieces that are cut."), "open")
            return redirect(url_for("cutting.show", name=name), 303)
        events = cut_plan(
            stash(), name, forms.text("code") or None, forms.token(),
            only=apart(pieces) if len(pieces) < every else (),
            again=apart(request.form.getlist("again")),
            labels=forms.text("labels", most=2000).replace(",", " ").split())
    except StashError as error:
        return _page(name, error)
    tell(_("Cut. What is left is on record, true to its shape."), undo=events[-1].id)
    for fact in said_of(rag_of(stash(), events)):
        tell(told(fact))
    remnants = [code for event in events for code in event.arrivals]
    unlabelled = remnants[len(forms.text("labels", most=2000).replace(",", " ").split()):]
    if unlabelled:
        tell(_("Remnants that want a label: %(codes)s.", codes=", ".join(unlabelled)))
        return redirect(url_for("labels.show", code=unlabelled), 303)
    return redirect(url_for("plans.show", name=name), 303)
