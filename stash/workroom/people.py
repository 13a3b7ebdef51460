"""People and their measurements."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from stash.draft.body import RANGE_MM, complete, how, word
from stash.draft.catalogue import about, garments
from stash.draft.garment import Measure
from stash.errors import InvalidInput, NotFound, StashError
from stash.fact import Term
from stash.ledger import Event
from stash.model import MeasureSet, Person
from stash.store import Stash
from stash.store.people import BODIES

__all__ = ["BODIES", "MEASURES", "how", "word"]

MEASURES: tuple[str, ...] = tuple(RANGE_MM)
"""Every measurement a person may have, in the order in which they are asked for."""


def person(stash: Stash, name: str) -> Person:
    """One person; NotFound names those who are like it."""
    return stash.people.get(name)


def everyone(stash: Stash) -> list[Person]:
    """Everyone on record, by name."""
    return stash.people.all()


def add(
    stash: Stash, name: str, measured_mm: Mapping[str, float], body: str | None = None,
    token: str | None = None, *, measured_on: str = "",
) -> tuple[Event, Person]:
    """Someone new, or new measurements of someone on record; the others stay as they were.

    Measured on another day than before, the set before is kept too.
    """
    try:
        known = stash.people.get(name)
    except NotFound:
        known = Person(name=" ".join(name.split()))
    person = replace(
        _set_aside(known, measured_on),
        measurements_mm={**known.measurements_mm, **measured_mm}, body=body or known.body,
        measured_on=measured_on or known.measured_on,
    )
    return stash.people.save(person, token), person


def _set_aside(person: Person, measured_on: str) -> Person:
    """The person with the measurements so far among the earlier ones, if these are of a new day."""
    if not measured_on or measured_on == person.measured_on or not person.measurements_mm:
        return person
    before = MeasureSet(
        measured_on=person.measured_on, measurements_mm=dict(person.measurements_mm)
    )
    return replace(person, earlier=(*person.earlier, before))


def adjust(
    stash: Stash, name: str, garment: str, changes: Mapping[str, object],
    token: str | None = None,
) -> tuple[Event, Person]:
    """Keep changes to the fit of one garment for one person; 0 takes one back.

    ``changes`` are lengths in mm, or text with a unit. InvalidInput names the
    adjustments that the garment has.
    """
    info, person = about(garment), stash.people.get(name)
    known = {o.name: o for o in info.options if isinstance(o, Measure) and o.fit}
    kept = dict(person.adjustments_mm.get(info.name, {}))
    for key, value in changes.items():
        if key not in known:
            raise InvalidInput(
                "no_such_adjustment", garment=Term(info.title), typed=key,
                known=tuple(known) or ("none",), field=key,
            )
        kept[key] = known[key].read(value)
    kept = {key: mm for key, mm in kept.items() if mm}
    others = {g: dict(a) for g, a in person.adjustments_mm.items() if g != info.name}
    changed = replace(
        person, adjustments_mm={**others, info.name: kept} if kept else others
    )
    return stash.people.save(changed, token), changed


def measured_again(
    stash: Stash, name: str, day: str, measured_mm: Mapping[str, float],
    token: str | None = None,
) -> tuple[Event, Person]:
    """A new set of measurements of one day ("2026-11-30"); the set before is kept.

    What was not measured again stays as it was. InvalidInput for no day, a day on which she
    was measured already, nothing measured, or measurements that no body has together.
    """
    try:
        date.fromisoformat(day)
    except ValueError:
        raise InvalidInput("not_a_day", typed=day[:20], field="day") from None
    person = stash.people.get(name)
    if day in (person.measured_on, *(s.measured_on for s in person.earlier)):
        raise InvalidInput("measured_that_day", person=person.name, day=day, field="day")
    measured = _by_kept_names(stash, name, measured_mm)
    if not measured:
        raise InvalidInput("measurements_wanted", field="hip")
    complete({**person.measurements_mm, **measured}, (), person.body)
    return add(stash, name, measured, token=token, measured_on=day)


def measure_sets(person: Person) -> list[MeasureSet]:
    """Every set of measurements, the newest first."""
    now = MeasureSet(measured_on=person.measured_on, measurements_mm=person.measurements_mm)
    return [now, *reversed(person.earlier)]


def garments_with_fit() -> list[tuple[str, str]]:
    """The garments whose fit can be changed, name and title."""
    return [(name, about(name).title) for name in garments() if fit_of(name)]


def fit_of(garment: str) -> tuple[Measure, ...]:
    """The changes to the fit that a garment takes."""
    return tuple(o for o in about(garment).options if isinstance(o, Measure) and o.fit)


def save(
    stash: Stash, name: str, measured_mm: Mapping[str, float], body: str | None = None,
    token: str | None = None, *, new: bool = False,
) -> tuple[Event | None, Person]:
    """The measurements of one person, all of them: those no longer given are forgotten.

    Conflict when somebody ``new`` has the name of a person on record.
    There is no event when nothing is changed by it. InvalidInput when there are none, or
    when no body can have them together.
    """
    measured = _by_kept_names(stash, name, measured_mm)
    if not measured:
        raise InvalidInput("measurements_wanted", field="hip")
    if body not in (None, *BODIES):
        raise InvalidInput("body_from_list", field="body")
    complete(measured, (), body)
    known = _known(stash, name) or Person(name=name)
    person = replace(known, name=name, measurements_mm=measured, body=body)
    if new:
        return stash.people.add(person, token), person
    if person == known:
        return None, person
    return stash.people.save(person, token), person


def _known(stash: Stash, name: str) -> Person | None:
    try:
        return stash.people.get(name)
    except NotFound:
        return None


def estimates_mm(person: Person) -> dict[str, float]:
    """What the table of bodies says about what was not measured, where it can say anything."""
    given = by_own_names(person)
    said: dict[str, float] = {}
    for key in MEASURES:
        if key in given or not given:
            continue
        try:
            said[key] = complete(person.measurements_mm, (key,), person.body)[key]
        except (StashError, KeyError):  # the table knows nothing of this one
            continue
    return said


def by_own_names(person: Person) -> dict[str, float]:
    """The measurements under the names in MEASURES; chest is another word for bust."""
    return {("bust" if k == "chest" else k): v for k, v in person.measurements_mm.items()}


def _by_kept_names(stash: Stash, name: str, measured_mm: Mapping[str, float]) -> dict[str, float]:
    """A chest stays a chest."""
    measured = dict(measured_mm)
    try:
        known = stash.people.get(name).measurements_mm
    except NotFound:
        return measured
    if "chest" in known and "bust" in measured:
        measured["chest"] = measured.pop("bust")
    return measured
