"""Those ticked in the list: moved, described and labelled at once; one act, one undo."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.cloth_kinds import by_weight_word, supposed
from stash.errors import InvalidInput, StashError
from stash.model import Cloth
from stash.workroom import places, several
from web import forms
from web.cut_form import cloth_from_form
from web.error_pages import status_of
from web.formatting import tell, tell_saved
from web.request_stash import stash
from web.texts import _, ngettext

pages = Blueprint("several", __name__, url_prefix="/several")

MOST = 1000


@pages.get("/")
def show():
    """What was ticked, and what can be done with it."""
    codes = request.args.getlist("code")[:MOST]
    error = None if codes else InvalidInput("tick_something", field="code")
    return _page(codes, error)


def _page(codes: list[str], error: StashError | None = None):
    cuts, bins = several.cards(stash(), codes)
    return render_template(
        "several/show.html", cuts=[card.cut for card in cuts], bins=[card.bin for card in bins],
        codes=[c.cut.code for c in cuts] + [b.bin.code for b in bins], error=error,
        typed=request.form if error and request.form else None, places=places.names(stash()),
    ), status_of(error) if error else 200


def _codes() -> list[str]:
    return request.form.getlist("code")[:MOST]


@pages.post("/move")
def move():
    """All of them to one place."""
    codes = _codes()
    try:
        place = forms.needed("place", _("Place"))
        event = several.move(stash(), codes, place, forms.token())
    except StashError as error:
        return _page(codes, error)
    tell(ngettext("%(num)d thing moved.", "%(num)d things moved.", len(codes)) % {
        "num": len(codes)}, undo=event.id)
    return redirect(url_for("home.show"), 303)


@pages.post("/facts")
def facts():
    """What is filled in, on the cloth of each of them."""
    codes = _codes()
    try:
        event = several.describe(
            stash(), codes, _changed, forms.text("keep_for") or None, forms.token())
    except StashError as error:
        return _page(codes, error)
    tell_saved(event and event.id, _("Saved."))
    return redirect(url_for("home.show"), 303)


def _changed(cloth: Cloth) -> Cloth:
    cloth = cloth_from_form(cloth)
    word = forms.text("weight_word")
    return supposed(cloth, mass_gsm=by_weight_word(word)) if word else cloth
