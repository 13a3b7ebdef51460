"""People and their body measurements."""

from __future__ import annotations

import json
from difflib import get_close_matches

from stash.errors import Conflict, InvalidInput, NotFound
from stash.fact import Term
from stash.ledger import Entry, Event, Kind
from stash.ledger.event import parts_of
from stash.model import Person
from stash.model.exact import from_plain, to_plain
from stash.store.ledger import Ledger
from stash.store.naming import is_name, key_of

BODIES = ("women", "men", "children")


class People:
    """Everyone garments are made for, by name; case and accents do not matter."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def get(self, name: str) -> Person:
        """One person; NotFound names those who are like it."""
        record = self.ledger.state(f"person:{key_of(name)}")
        if record is None:
            raise _not_found(name, [person.name for person in self.all()])
        return from_plain(Person, record)

    def as_of(self, name: str, event: int | None = None) -> Person | None:
        """The person as recorded before an event, or now; None where there was nobody."""
        subject = f"person:{key_of(name)}"
        for one in self.ledger.history(subject):
            if not one.stands or (event is not None and one.id >= event):
                continue
            for part in reversed(parts_of(one.change.get(subject, {}))):
                if "record" in part:
                    record = part["record"]
                    return None if record is None else from_plain(Person, record)
        return None

    def all(self) -> list[Person]:
        """Everyone, by name."""
        rows = self.ledger.db.execute(
            "SELECT record FROM record WHERE noun = 'person' ORDER BY subject"
        )
        return [from_plain(Person, json.loads(record)) for (record,) in rows]

    def save(self, person: Person, token: str | None = None) -> Event:
        """Record a person, or new measurements of one already on record."""
        subject = f"person:{key_of(checked(person).name)}"

        def make() -> Entry:
            kind = Kind.RECEIPT if self.ledger.state(subject) is None else Kind.CORRECTION
            return Entry(kind=kind, code=subject, change={subject: {"record": to_plain(person)}})

        return self.ledger.write(make, token)

    def add(self, person: Person, token: str | None = None) -> Event:
        """Record somebody new; Conflict when there is somebody of this name."""
        subject = f"person:{key_of(checked(person).name)}"

        def make() -> Entry:
            if self.ledger.state(subject) is not None:
                raise Conflict("person_there", name=person.name)
            return Entry(kind=Kind.RECEIPT, code=subject,
                         change={subject: {"record": to_plain(person)}})

        return self.ledger.write(make, token)

    def remove(self, name: str, token: str | None = None) -> Event:
        """Take a person off the list; undo brings the measurements back."""
        self.get(name)
        subject = f"person:{key_of(name)}"
        entry = Entry(kind=Kind.DISCARD, code=subject, change={subject: {"record": None}})
        return self.ledger.write(lambda: entry, token)


def checked(person: Person) -> Person:
    """The person itself; InvalidInput for what no body can measure."""
    if not is_name(person.name) or len(person.name) > 100:
        raise InvalidInput("person_name_wanted", most=100, field="name")
    if person.body not in (None, *BODIES):
        raise InvalidInput(
            "not_a_body", bodies=tuple(map(Term, BODIES)), typed=str(person.body), field="body")
    for key, value in person.measurements_mm.items():
        if not 10 <= value <= 3000:
            raise InvalidInput(
                "not_a_body_measure", given_measure_mm=value, measure=Term(key.replace('_', ' ')),
                field=key,
            )
    return person


def _not_found(name: str, names: list[str]) -> NotFound:
    if not names:
        return NotFound("nobody_yet", typed=name)
    keys = {key_of(n): n for n in names}
    near = [n for n in names if key_of(name) and key_of(name) in key_of(n)]
    near = near or [keys[k] for k in get_close_matches(key_of(name), keys, n=3)]
    return NotFound("nobody_called", typed=name, known=tuple(near or names[:8]))
