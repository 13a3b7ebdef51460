"""People and their measurements; what was not measured is asked for, never hidden."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.draft.body import BODIES, RANGE_MM, complete, how, word
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
    known = _by_own_names(person)
    fields = [(key, _label(key), known.get(key), _hint(key, estimates)) for key in RANGE_MM]
    return render_template(
        "people/show.html", person=person, error=error, typed=request.form if error else None,
        fields=[f for f in fields if f[0] in MAIN], more=[f for f in fields if f[0] not in MAIN],
        bodies=[(key, _(text)) for key, text in BODY_WORDS.items()],
    ), status_of(error) if error else 200


def _typed(person: Person) -> Person:
    name = person.name or forms.needed("name", _("Name"))
    given = {key: mm for key in RANGE_MM if (mm := forms.maybe_length(key)) is not None}
    if "chest" in person.measurements_mm and "bust" in given:
        given["chest"] = given.pop("bust")
    if not given:
        raise InvalidInput(_("Measure at least the hip and the waist, or the bust."), field="hip")
    body = forms.text("body") or None
    if body not in (None, *BODIES):
        raise InvalidInput(_("Choose a table from the list."), field="body")
    complete(given, (), body)
    return Person(name=name, measurements_mm=given, body=body)


def _by_own_names(person: Person) -> dict[str, float]:
    """The measurements under the names the form has; chest is another word for bust."""
    return {("bust" if k == "chest" else k): v for k, v in person.measurements_mm.items()}


def _label(key: str) -> str:
    return _("Bust or chest") if key == "bust" else _(word(key)).capitalize()


def _hint(key: str, estimates: dict[str, str]) -> str:
    """How it is taken; and what it is taken for as long as it is not."""
    if key in estimates:
        return _("Estimated: %(guess)s; %(how)s", guess=estimates[key], how=_(how(key)))
    return _(how(key))


def _estimates(person: Person) -> dict[str, str]:
    """What the table of bodies says about the rest, where it can say anything."""
    given = _by_own_names(person)
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
