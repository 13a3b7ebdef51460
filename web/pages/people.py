"""People and their measurements; what was not measured is asked for, never hidden."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.draft.body import BODIES, RANGE_MM, complete, word
from stash.errors import InvalidInput, StashError
from stash.model import Person
from web import forms
from web.errors import status_of
from web.opened import stash
from web.showing import length, tell
from web.texts import _

pages = Blueprint("people", __name__, url_prefix="/people")

BODY_WORDS = {"": "let the measurements decide", "women": "women", "men": "men",
              "children": "children"}


@pages.get("/")
def index():
    """Everyone, and a form for someone new."""
    return render_template("people/index.html", people=stash().people.all())


@pages.route("/new", methods=["GET", "POST"])
def new():
    """Someone new."""
    return _edit(Person(name=""))


@pages.route("/<path:name>", methods=["GET", "POST"])
def show(name: str):
    """One person."""
    return _edit(stash().people.get(name))


def _edit(person: Person):
    error = None
    if request.method == "POST":
        try:
            person = _typed(person)
            event = stash().people.save(person, token=forms.token())
            tell(_("%(name)s is recorded.", name=person.name), undo=event.id)
            return redirect(url_for("people.show", name=person.name), 303)
        except StashError as refused:
            error = refused
    estimates = _estimates(person)
    fields = [
        (key, _(word(key)).capitalize(), person.measurements_mm.get(key), estimates.get(key))
        for key in RANGE_MM
    ]
    return render_template(
        "people/show.html", person=person, error=error, typed=request.form if error else None,
        fields=[f for f in fields if f[0] in MAIN], more=[f for f in fields if f[0] not in MAIN],
        bodies=[(key, _(text)) for key, text in BODY_WORDS.items()], how=HOW,
    ), status_of(error) if error else 200


def _typed(person: Person) -> Person:
    name = person.name or forms.needed("name", _("Name"))
    given = {key: mm for key in RANGE_MM if (mm := forms.maybe_length(key)) is not None}
    if not given:
        raise InvalidInput(_("Measure at least the hip and the waist, or the bust."), field="hip")
    body = forms.text("body") or None
    if body not in (None, *BODIES):
        raise InvalidInput(_("Choose a table from the list."), field="body")
    complete(given, (), body)
    return Person(name=name, measurements_mm=given, body=body)


def _estimates(person: Person) -> dict[str, str]:
    """What the table of bodies says about the rest, where it can say anything."""
    given = {("bust" if k == "chest" else k): v for k, v in person.measurements_mm.items()}
    said: dict[str, str] = {}
    for key in RANGE_MM:
        if key in given or not given:
            continue
        try:
            said[key] = length(complete(person.measurements_mm, (key,), person.body)[key])
        except (StashError, KeyError):  # the table knows nothing of this one
            continue
    return said


MAIN = ("hip", "waist", "bust", "height", "inside_leg", "body_rise")
HOW = {
    "hip": "round the fullest part, tape level", "waist": "where the waistband is to sit",
    "bust": "round the fullest part; a man’s chest likewise",
    "height": "without shoes, back to the wall",
    "inside_leg": "from the crotch to the floor", "body_rise":
    "sitting on a hard chair: from the waist to the seat",
}
