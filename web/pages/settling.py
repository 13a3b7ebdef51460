"""The one measurement that settles what was presumed: asked for, kept, and back to the question."""

from __future__ import annotations

from collections.abc import Callable

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import InvalidInput, StashError
from stash.model import Construction
from stash.quantity import Quantity
from stash.workroom import cuts, settling, weighing
from web import forms
from web.cut_form import WIDEST_MM
from web.error_pages import status_of
from web.formatting import local, tell
from web.request_stash import stash
from web.scale_form import STEPS, grams_of, scale_of
from web.texts import _

pages = Blueprint("settling", __name__, url_prefix="/settle")


@pages.route("/<code>/<what>", methods=["GET", "POST"])
def show(code: str, what: str):
    """What is presumed of a cut's cloth, and the form for what settles it."""
    if what not in _SETTLE:
        raise InvalidInput("nothing_to_settle", field="what")
    cut, error = cuts.cut(stash(), code), None
    if request.method == "POST":
        try:
            event_id = _SETTLE[what](cut.code)
            tell(_("That is on record now, and no longer presumed."), undo=event_id)
            return redirect(_back(cut.code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "settling/show.html", cut=cut, what=what, error=error, back=_back(cut.code),
        steps=[(step, local(f"{step} g")) for step in STEPS],
        typed=request.form if request.method == "POST" else None,
    ), status_of(error) if error else 200


def _back(code: str) -> str:
    return forms.back_to(url_for("scanned.open", code=code))


def _weight(code: str) -> int:
    _mass, event = weighing.weigh_swatch(
        stash(), code, grams_of("known_grams"), scale_of(), forms.token())
    return event.id


def _shrinkage(code: str) -> int:
    def sides(when: str) -> tuple[float, float]:
        return (forms.length(f"{when}_along", Quantity.WIDTH),
                forms.length(f"{when}_across", Quantity.WIDTH))

    return settling.settle_shrinkage(
        stash(), code, sides("before"), sides("after"), forms.token()).id


def _width(code: str) -> int:
    width_mm = forms.length("width", Quantity.WIDTH)
    if width_mm > WIDEST_MM:
        raise InvalidInput("cloth_too_wide", most_width_mm=WIDEST_MM, field="width")
    return settling.settle_width(stash(), code, width_mm, forms.token()).id


def _making(code: str) -> int:
    made = request.form.get("construction", "")
    if made not in {one.value for one in Construction}:
        raise InvalidInput("choose_how_it_is_made", field="construction")
    return settling.settle_making(stash(), code, Construction(made), forms.token()).id


_SETTLE: dict[str, Callable[[str], int]] = {
    "width": _width, "weight": _weight, "shrinkage": _shrinkage, "making": _making}
