"""Places: shelves and boxes, what is said to lie in them, and moving things there."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import StashError
from stash.store.naming import key_of
from web import forms
from web.drawing.rule import extent
from web.errors import status_of
from web.opened import stash
from web.showing import tell
from web.texts import _

pages = Blueprint("places", __name__, url_prefix="/places")


def page(code: str, *, error: StashError | None = None):
    """The page a place's label opens."""
    place = stash().places.get(code)
    return _contents(place.name, code=place.code, error=error)


def _contents(name: str, *, code: str | None = None, error: StashError | None = None):
    here = set(stash().places.contents(name))
    cuts = [c for c in stash().cuts.all() if c.code in here]
    bins = [b for b in stash().bins.all() if b.code in here]
    return render_template(
        "places/show.html", name=name, code=code, cuts=cuts, bins=bins, error=error,
        extent=extent([c.length_mm for c in cuts]),
    ), status_of(error) if error else 200


@pages.route("/", methods=["GET", "POST"])
def index():
    """Every place, and a form for a new one."""
    error = None
    if request.method == "POST":
        try:
            event = stash().places.receive(forms.needed("name", _("Name")), token=forms.token())
            tell(_("Recorded. Its code is %(code)s.", code=event.code), undo=event.id)
            return redirect(url_for("places.index"), 303)
        except StashError as refused:
            error = refused
    labelled = {key_of(p.name): p for p in stash().places.all()}
    places = [
        (name, labelled.get(key_of(name)), len(stash().places.contents(name)))
        for name in stash().places.names()
    ]
    return render_template(
        "places/index.html", places=places, error=error, typed=request.form if error else None
    ), status_of(error) if error else 200


@pages.get("/named/<path:name>")
def named(name: str):
    """A place by its name, whether or not it has a label."""
    place = stash().places.find(name)
    return _contents(name, code=place.code if place else None)
