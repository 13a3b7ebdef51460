"""People and their measurements; what was not measured is asked for, never hidden."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import StashError
from stash.model import Person
from stash.quantity import Quantity
from stash.sentences.regional import both_names
from stash.workroom import people
from stash.workroom.people import MEASURES, how, word
from web import forms
from web.error_pages import status_of
from web.formatting import shown_as, tell_saved
from web.request_stash import reader, stash
from web.texts import _, headed

pages = Blueprint("people", __name__, url_prefix="/people")

BODY_WORDS = {"": "let the measurements decide", "women": "women", "men": "men",
              "children": "children"}


@pages.get("/")
def index():
    """Everyone, and a form for someone new."""
    return render_template("people/index.html", people=people.everyone(stash()))


@pages.route("/new", methods=["GET", "POST"])
def new():
    """Someone new."""
    return _edit(Person(name=""))


@pages.route("/one", methods=["GET", "POST"])
def show():
    """One person, by name: any name at all, also one that could not stand in an address."""
    return _edit(people.person(stash(), request.args.get("name", "")))


@pages.route("/<path:name>", methods=["GET", "POST"])
def named(name: str):
    """One person, where her page was before."""
    return _edit(people.person(stash(), name))


def _edit(person: Person):
    error = None
    if request.method == "POST":
        try:
            event, person = people.save(
                stash(), person.name or forms.needed("name", _("Name")), _typed_mm(),
                forms.text("body") or None, forms.token(), new=not person.name)
            tell_saved(event and event.id, _("%(name)s is saved.", name=person.name))
            return redirect(forms.back_to(url_for("people.show", name=person.name)), 303)
        except StashError as refused:
            error = refused
    estimates, known = people.estimates_mm(person), people.by_own_names(person)
    fields = [(key, _label(key), known.get(key), _hint(key, estimates)) for key in MEASURES]
    return render_template(
        "people/show.html", person=person, error=error, typed=request.form if error else None,
        back=request.values.get("back", ""),
        fields=[f for f in fields if f[0] in MAIN], more=[f for f in fields if f[0] not in MAIN],
        bodies=[(key, _(text)) for key, text in BODY_WORDS.items()],
    ), status_of(error) if error else 200


def _typed_mm() -> dict[str, float]:
    typed = {key: forms.maybe_length(key, Quantity.BODY) for key in MEASURES}
    return {key: mm for key, mm in typed.items() if mm is not None}


def _label(key: str) -> str:
    return _("Bust or chest") if key == "bust" else headed(both_names(word(key), reader()))


def _hint(key: str, estimates: dict[str, float]) -> str:
    """How it is taken; and what it is taken for as long as it is not."""
    if key in estimates:
        guess = shown_as(Quantity.BODY)(estimates[key])
        return _("Estimated: %(guess)s; %(how)s", guess=guess, how=_(how(key)))
    return _(how(key))


MAIN = ("hip", "waist", "bust", "height", "inside_leg", "body_rise")
