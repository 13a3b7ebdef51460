"""Places: shelves and boxes, what is said to lie in them, and moving things there."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import StashError
from stash.workroom import places
from stash.workroom.places import Place
from web import forms
from web.drawing.rule import extent
from web.error_pages import status_of
from web.formatting import tell
from web.request_stash import stash
from web.texts import _

pages = Blueprint("places", __name__, url_prefix="/places")

AT_ONCE = 400


def page(code: str, *, error: StashError | None = None):
    """The page a place's label opens."""
    return _contents(places.find(stash(), code), error=error)


def _contents(place: Place, *, error: StashError | None = None):
    here = places.contents(stash(), place)
    cuts = [card.cut for card in here.cuts]
    return render_template(
        "places/show.html", name=place.name, code=place.code or None, cuts=cuts,
        bins=[card.bin for card in here.bins], photos=here.photos, error=error,
        extent=extent([c.length_mm for c in cuts]),
    ), status_of(error) if error else 200


@pages.route("/", methods=["GET", "POST"])
def index():
    """Every place, and a form for a new one."""
    error = None
    if request.method == "POST":
        try:
            event, place = places.receive(
                stash(), forms.needed("name", _("Name")), token=forms.token())
            tell(_("Saved. Its code is %(code)s.", code=place.code), undo=event.id)
            return redirect(url_for("places.index"), 303)
        except StashError as refused:
            error = refused
    rows, first = places.rows(stash()), max(request.args.get("first", 0, type=int), 0)
    return render_template(
        "places/index.html", places=rows[first : first + AT_ONCE], error=error,
        typed=request.form if error else None, count=len(rows), first=first, at_once=AT_ONCE,
    ), status_of(error) if error else 200


@pages.get("/named/<path:name>")
def named(name: str):
    """A place by its name, whether or not it has a label."""
    return _contents(places.named(stash(), name))
