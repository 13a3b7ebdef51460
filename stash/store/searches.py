"""Searches she keeps under a name."""

from __future__ import annotations

import json
from dataclasses import dataclass

from stash.errors import InvalidInput, NotFound
from stash.ledger import Entry, Event, Kind
from stash.store.ledger import Ledger
from stash.store.naming import is_name, key_of

LONGEST_NAME = 60
LONGEST_QUERY = 1000


@dataclass(frozen=True, kw_only=True)
class KeptSearch:
    """``query`` is what the page of the stash is asked, as in its address."""

    name: str
    query: str


class Searches:
    """Kept searches by name."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def all(self) -> list[KeptSearch]:
        """Every one of them, by name."""
        rows = self.ledger.db.execute("SELECT record FROM record WHERE noun = 'search'")
        found = [KeptSearch(**json.loads(record)) for (record,) in rows]
        return sorted(found, key=lambda one: key_of(one.name))

    def keep(self, name: str, query: str, token: str | None = None) -> Event:
        """Keep a search; one of that name is replaced."""
        tidy = " ".join(name.split())
        if not is_name(tidy) or len(tidy) > LONGEST_NAME or len(query) > LONGEST_QUERY:
            raise InvalidInput("search_name_wanted", most=LONGEST_NAME, field="search")
        subject = f"search:{key_of(tidy)}"
        change = {subject: {"record": {"name": tidy, "query": query}}}
        return self.ledger.write(
            lambda: Entry(kind=Kind.RECEIPT, code=subject, change=change), token)

    def forget(self, name: str, token: str | None = None) -> Event:
        """Keep it no longer; an undo brings it back."""
        subject = f"search:{key_of(name)}"
        if self.ledger.record(subject) is None:
            raise NotFound("no_such_search", typed=name[:60])
        change = {subject: {"record": None}}
        return self.ledger.write(
            lambda: Entry(kind=Kind.DISCARD, code=subject, change=change), token)
