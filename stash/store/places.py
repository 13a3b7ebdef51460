"""Places: shelves, boxes and drawers, each with a label of its own."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass

from stash.errors import Conflict, InvalidInput, NotFound
from stash.ledger import Entry, Event, Kind
from stash.model import Code
from stash.store.labels import Labels
from stash.store.ledger import Ledger
from stash.store.naming import is_name, key_of

LONGEST_NAME = 100


@dataclass(frozen=True, kw_only=True)
class Place:
    """A place by its label code and its name."""

    code: str
    name: str
    notes: str = ""


class Places:
    """Where things are kept. A cut may also lie in a place that has no label."""

    def __init__(self, ledger: Ledger, labels: Labels):
        self.ledger = ledger
        self.labels = labels

    def receive(
        self, name: str, code: str | None = None, token: str | None = None, *, notes: str = ""
    ) -> Event:
        """Give a place a label; Conflict when the name has one already."""
        tidy_name(name)

        def make() -> Entry:
            if self.find(name):
                raise Conflict("place_has_label", place=name.strip())
            taken = self.labels.claim(code)
            record = {"name": tidy_name(name), "notes": notes}
            change = {f"place:{taken}": {"record": record}}
            return Entry(kind=Kind.RECEIPT, code=taken, change=change)

        return self.ledger.write(make, token)

    def all(self) -> list[Place]:
        """Every labelled place, by name."""
        rows = self.ledger.db.execute("SELECT subject, record FROM record WHERE noun = 'place'")
        read = [(subject.removeprefix("place:"), json.loads(record)) for subject, record in rows]
        places = [Place(code=code, **record) for code, record in read]
        return sorted(places, key=lambda place: key_of(place.name))

    def get(self, code: str) -> Place:
        """The place with this label."""
        parsed = Code.parse(code).text
        record = self.ledger.record(f"place:{parsed}")
        if record is None:
            raise NotFound("no_place_with_code", code=parsed)
        return Place(code=parsed, **record)

    def find(self, name: str) -> Place | None:
        """The labelled place of this name, or None."""
        return next((p for p in self.all() if key_of(p.name) == key_of(name)), None)

    def names(self) -> list[str]:
        """Every place something is said to lie in, labelled or not."""
        return sorted(self.things().keys() | {p.name for p in self.all()}, key=key_of)

    def things(self) -> Counter[str]:
        """How many cuts and bins are said to lie in each place, as it is written there."""
        rows = self.ledger.db.execute(
            "SELECT place, COUNT(*) FROM cut WHERE gone IS NULL GROUP BY place UNION ALL"
            " SELECT place, COUNT(*) FROM bin WHERE gone IS NULL GROUP BY place")
        found: Counter[str] = Counter()
        for place, number in rows:
            if place is not None:
                found[place] += number
        return found

    def contents(self, name: str) -> list[str]:
        """The codes of all cuts and bins that are said to lie in a place."""
        key, db = key_of(name), self.ledger.db
        known = db.execute("SELECT DISTINCT place FROM cut WHERE gone IS NULL UNION"
                           " SELECT DISTINCT place FROM bin WHERE gone IS NULL")
        meant = json.dumps([place for (place,) in known if place and key_of(place) == key])
        rows = db.execute(
            "SELECT code FROM (SELECT code, 0 AS bin, rowid AS row FROM cut"
            " WHERE place IN (SELECT value FROM json_each(:meant)) AND gone IS NULL UNION ALL"
            " SELECT code, 1, rowid FROM bin"
            " WHERE place IN (SELECT value FROM json_each(:meant)) AND gone IS NULL)"
            " ORDER BY bin, row", {"meant": meant})
        return [code for (code,) in rows]


def place_name(ledger: Ledger, said: str | None) -> str | None:
    """The name of the place that a name or a scanned place label means; None for no place."""
    if said is None or not said.strip():
        return None
    try:
        record = ledger.record(f"place:{Code.parse(said).text}")
    except InvalidInput:
        record = None
    if record is not None:
        return str(record["name"])
    return tidy_name(said)


def tidy_name(name: str) -> str:
    """The name without superfluous spaces; InvalidInput when it is none."""
    if not is_name(name) or len(name) > LONGEST_NAME:
        raise InvalidInput("place_name_wanted", most=LONGEST_NAME, field="place")
    return " ".join(name.split())
