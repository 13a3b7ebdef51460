"""The cutting table: what to fetch, how to spread it, and pieces ticked as they are cut."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import StashError
from stash.model import Spread
from stash.workroom.cutting import cut_plan
from stash.workroom.cutting_day import apart, cutting_day
from web import forms
from web.error_pages import status_of
from web.formatting import tell
from web.request_stash import stash
from web.texts import _

pages = Blueprint("cutting", __name__, url_prefix="/cutting")

SPREADS = {
    Spread.OPEN: "open, in a single layer, right side up",
    Spread.LENGTHWISE: "folded lengthwise, right sides together, the fold towards you",
    Spread.CROSSWISE: "folded crosswise, right sides together, the fold at the far end",
}


@pages.get("/<path:name>")
def show(name: str):
    """The table, for one plan."""
    return _page(name)


def _page(name: str, error: StashError | None = None):
    day = cutting_day(stash(), name)
    spreads = {table.code: _(SPREADS[table.laid.lay.spread]) for table in day.tables}
    return render_template(
        "cutting/show.html", day=day, spreads=spreads, error=error,
        typed=request.form if error else None,
    ), status_of(error) if error else 200


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
    remnants = [code for event in events for code in event.arrivals]
    unlabelled = remnants[len(forms.text("labels", most=2000).replace(",", " ").split()):]
    if unlabelled:
        tell(_("Remnants that want a label: %(codes)s.", codes=", ".join(unlabelled)))
        return redirect(url_for("labels.show", code=unlabelled), 303)
    return redirect(url_for("plans.show", name=name), 303)
