"""Stock-take: walk a shelf with a scanner, then set the record straight with one tap each."""

from __future__ import annotations

from flask import Blueprint, current_app, redirect, render_template, request, url_for

from stash.errors import NotFound, StashError
from stash.workroom import labels, places, stock_take
from web import forms
from web.error_pages import status_of
from web.formatting import tell
from web.label_lookup import of_code, payload_of
from web.pages.scan import read_photos
from web.request_stash import stash, wants_json
from web.stock_takes import StockTakes
from web.texts import _

pages = Blueprint("stocktake", __name__, url_prefix="/stock-take")

AT_ONCE = 400


def _takes() -> StockTakes:
    return current_app.extensions.setdefault("stocktakes", StockTakes())


@pages.get("/")
def choose():
    """Where to begin."""
    rows, first = places.rows(stash()), max(request.args.get("first", 0, type=int), 0)
    return render_template(
        "stocktake/choose.html", first=first, at_once=AT_ONCE, count=len(rows),
        places=[(row.name, row.things) for row in rows[first : first + AT_ONCE]])


@pages.get("/in/<path:place>")
def show(place: str):
    """What is found, missing and out of place so far."""
    return _page(place)


def _page(place: str, error: StashError | None = None):
    standing = stock_take.compare(stash(), place, _takes().seen(place))
    lists = {
        name: [of_code(code) for code in getattr(standing, name)]
        for name in ("found", "missing", "strays", "unknown")
    }
    body = render_template(
        "stocktake/show.html", place=place, standing=standing, error=error,
        typed=request.form if error else None, **lists
    )
    return body, status_of(error) if error else 200


@pages.post("/in/<path:place>/seen")
def seen(place: str):
    """Add a typed code, what a camera read, or every label in some photographs."""
    try:
        if "code" in request.form:
            codes = [payload_of(forms.needed("code", _("The code"))).code.text]
        else:
            codes, _hint = read_photos()
            if not codes:
                raise NotFound("no_label_in_photographs")
    except StashError as error:
        if wants_json():
            raise
        return _page(place, error)
    here = [c for c in codes if labels.what(stash(), c) == "place"]
    _takes().see(place, [c for c in codes if c not in here])
    go = url_for("stocktake.show", place=places.find(stash(), here[-1]).name) if here else None
    if wants_json():
        return {"codes": codes, "go": go}
    return redirect(go or url_for("stocktake.show", place=place), 303)


@pages.post("/in/<path:place>/here")
def here(place: str):
    """What was found here belongs here from now on: one thing, or all that is out of place."""
    codes = request.form.getlist("code") or list(
        stock_take.compare(stash(), place, _takes().seen(place)).strays)
    event = stock_take.move_all(stash(), codes, place, forms.token())
    tell(_("Moved here: %(n)d.", n=len(codes)), undo=event.id if event else None)
    return redirect(url_for("stocktake.show", place=place), 303)


@pages.post("/in/<path:place>/missing")
def missing(place: str):
    """What is missing here is somewhere else, nobody knows where: one thing, or all."""
    codes = request.form.getlist("code") or list(
        stock_take.compare(stash(), place, _takes().seen(place)).missing)
    event = stock_take.move_all(stash(), codes, None, forms.token())
    tell(_("Recorded as not here: %(n)d; no place is known now.", n=len(codes)),
         undo=event.id if event else None)
    return redirect(url_for("stocktake.show", place=place), 303)


@pages.post("/in/<path:place>/done")
def done(place: str):
    """Write down how the place was found, and begin anew next time."""
    standing = stock_take.compare(stash(), place, _takes().seen(place))
    stock_take.finish(stash(), place, standing, forms.token())
    _takes().end(place)
    tell(_("The stock-take of %(place)s is finished; found: %(n)d.", place=place,
           n=len(standing.found)))
    return redirect(url_for("stocktake.choose"), 303)
