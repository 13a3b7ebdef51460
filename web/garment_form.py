"""A garment, a person and options as a form gives them: read into a drafted pattern."""

from __future__ import annotations

from collections.abc import Mapping

from stash.model import Person
from stash.quantity import Quantity, read_length, read_length_or_nothing
from stash.sentences.regional import both_names
from stash.workroom import people
from stash.workroom.drafts import Choice, GarmentInfo, Measure
from web.formatting import in_units, shown_as
from web.request_stash import reader, stash, system
from web.texts import _, headed

OPTION, MEASURE = "option-", "measure-"


def person_of(values: Mapping[str, str]) -> Person | None:
    """The person chosen, or one made of the measurements typed in; None without either."""
    if name := values.get("person", "").strip():
        return people.person(stash(), name)
    typed = {
        key: read_length(
            values[MEASURE + key], Quantity.BODY, field=MEASURE + key, system=system())
        for key in people.MEASURES
        if values.get(MEASURE + key, "").strip()
    }
    return Person(name=_("no one on record"), measurements_mm=typed) if typed else None


def options_of(info: GarmentInfo, values: Mapping[str, str], prefix: str = OPTION) -> dict:
    """The options that were filled in; the draft knows the rest."""
    chosen: dict[str, object] = {}
    for option in info.options:
        typed = values.get(prefix + option.name, "").strip()
        if not typed:
            continue
        if isinstance(option, Measure):
            chosen[option.name] = read_length_or_nothing(
                typed, Quantity.PATTERN, field=prefix + option.name, system=system())
        else:
            chosen[option.name] = typed
    return chosen


def option_fields(info: GarmentInfo) -> list[dict]:
    """The options as a template shows them."""
    fields = []
    for option in info.options:
        field = {"name": option.name, "label": headed(in_units(_(option.about)))}
        if isinstance(option, Choice):
            field["words"] = [(w, both_names(w.replace("-", " "), reader())) for w in option.words]
            field["default"] = option.default
        else:
            shown = option.default
            field["placeholder"] = (
                _("as drafted") if shown is None
                else shown_as(Quantity.PATTERN)(shown)
            )
            field["hint"] = _("%(least)s to %(most)s",
                              least=shown_as(Quantity.PATTERN)(option.least_mm),
                              most=shown_as(Quantity.PATTERN)(option.most_mm))
        fields.append(field)
    return fields

