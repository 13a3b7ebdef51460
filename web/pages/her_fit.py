"""What a toile showed of one person's fit, garment by garment: kept, and drawn again next time."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import StashError
from stash.model import Person
from stash.quantity import Quantity, read_length_or_nothing
from stash.workroom import people
from stash.workroom.drafts import Measure, about
from web import forms
from web.error_pages import status_of
from web.formatting import in_units, shown_as, tell
from web.request_stash import stash, system
from web.texts import _, headed

pages = Blueprint("her_fit", __name__, url_prefix="/fit")

MINUS = ("-", "−")


@pages.get("/")
def show():
    """The garments whose fit can be changed, and the changes to the one that is chosen."""
    if not request.args.get("name"):
        return redirect(url_for("people.index"))
    return _page(people.person(stash(), request.args["name"]))


@pages.post("/")
def keep():
    """Every change of one garment as it was typed; an empty field takes one back."""
    person = people.person(stash(), request.args.get("name", ""))
    garment = request.args.get("garment", "")
    try:
        changes = {o.name: _signed_mm(o.name) for o in people.fit_of(garment)}
        event, person = people.adjust(stash(), person.name, garment, changes, forms.token())
    except StashError as error:
        return _page(person, error)
    tell(_("The fit of %(garment)s for %(name)s is kept; it is drawn so from now on.",
           garment=_(about(garment).title), name=person.name), undo=event.id)
    return redirect(url_for("her_fit.show", name=person.name, garment=garment), 303)


def _page(person: Person, error: StashError | None = None):
    chosen = request.args.get("garment", "")
    kept = person.adjustments_mm
    return render_template(
        "her_fit/show.html", person=person, error=error, typed=request.form if error else None,
        garments=[(name, _(title), len(kept.get(name, {})))
                  for name, title in people.garments_with_fit()],
        chosen=chosen, title=_(about(chosen).title) if chosen else "",
        fields=[_field(o, kept.get(chosen, {})) for o in people.fit_of(chosen)] if chosen else [],
    ), status_of(error) if error else 200


def _field(option: Measure, kept) -> dict[str, object]:
    """One change: what it does, how far it goes, and what is kept of it."""
    return {
        "name": option.name, "label": headed(in_units(_(option.about))),
        "value": _shown(kept[option.name]) if option.name in kept else "",
        "hint": _("%(least)s to %(most)s", least=_shown(option.least_mm),
                  most=_shown(option.most_mm)),
    }


def _shown(mm: float) -> str:
    return shown_as(Quantity.PATTERN)(mm)


def _signed_mm(field: str) -> float:
    """A length that may be less than nothing; empty is nothing."""
    typed = forms.text(field)
    sign = -1.0 if typed[:1] in MINUS else 1.0
    plain = typed.lstrip("".join(MINUS) + "+ ") or "0"
    return sign * read_length_or_nothing(
        plain, Quantity.PATTERN, field=field, system=system())
