"""A person measured more than once: every set with its day, and what changed in between."""

from __future__ import annotations

from datetime import date

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import StashError
from stash.model import Person
from stash.quantity import Quantity
from stash.workroom import people
from stash.workroom.people import MEASURES, how, word
from web import forms
from web.error_pages import status_of
from web.formatting import tell
from web.request_stash import stash
from web.texts import _, headed

pages = Blueprint("measured", __name__, url_prefix="/measured")


@pages.get("/")
def show():
    """Every set of measurements, and a form for a new one."""
    if not request.args.get("name"):
        return redirect(url_for("people.index"))
    return _page(people.person(stash(), request.args["name"]))


@pages.post("/")
def again():
    """A new set; the one before is kept."""
    person = people.person(stash(), request.args.get("name", ""))
    try:
        typed = {key: forms.maybe_length(key, Quantity.BODY) for key in MEASURES}
        measured = {key: mm for key, mm in typed.items() if mm is not None}
        event, person = people.measured_again(
            stash(), person.name, forms.text("day"), measured, forms.token())
    except StashError as error:
        return _page(person, error)
    tell(_("The new measurements of %(name)s are kept, and those before too.",
           name=person.name), undo=event.id)
    return redirect(url_for("measured.show", name=person.name), 303)


def _page(person: Person, error: StashError | None = None):
    sets = people.measure_sets(person)
    known = people.by_own_names(person)
    rows = [(_label(key), [_cell(sets, place, key) for place in range(len(sets))])
            for key in MEASURES if any(_mm(s.measurements_mm, key) for s in sets)]
    return render_template(
        "measured/show.html", person=person, error=error, typed=request.form if error else None,
        days=[s.measured_on or _("day not noted") for s in sets], rows=rows,
        today=date.today().isoformat(),
        fields=[(key, _label(key), _(how(key))) for key in MEASURES if key in known],
        more=[(key, _label(key), _(how(key))) for key in MEASURES if key not in known],
    ), status_of(error) if error else 200


def _cell(sets, place: int, key: str) -> tuple[float | None, float]:
    """A measurement of one day, and what it grew by since the set before."""
    now = _mm(sets[place].measurements_mm, key)
    before = _mm(sets[place + 1].measurements_mm, key) if place + 1 < len(sets) else None
    return now, (now - before) if now is not None and before is not None else 0.0


def _mm(measured, key: str) -> float | None:
    """A measurement by its own name; a chest is another word for a bust."""
    return measured.get(key, measured.get("chest") if key == "bust" else None)


def _label(key: str) -> str:
    return _("Bust or chest") if key == "bust" else headed(_(word(key)))
