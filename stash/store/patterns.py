"""Her own patterns: traced, typed, imported or drafted once, and kept in every version."""

from __future__ import annotations

import json
from dataclasses import dataclass

from stash.errors import InvalidInput, NotFound
from stash.fact import Term
from stash.ledger import Entry, Event, Kind
from stash.model import Pattern
from stash.model.exact import from_plain, to_plain
from stash.store.ledger import Ledger
from stash.store.naming import is_name, key_of


@dataclass(frozen=True, kw_only=True)
class KeptPattern:
    """One version of a pattern of her own; ``source`` says how it came in."""

    name: str
    version: int
    source: str
    pattern: Pattern


class Patterns:
    """Patterns by name and version; the newest version is the one meant."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def get(self, name: str, version: int | None = None) -> Pattern:
        """A pattern, the newest version unless another is named."""
        return self.kept(name, version).pattern

    def kept(self, name: str, version: int | None = None) -> KeptPattern:
        """A pattern with its version and source; NotFound names those there are."""
        versions = [k for k in self.versions(name) if version in (None, k.version)]
        if not versions:
            names = ", ".join(k.name for k in self.all()[:8]) or Term("none yet")
            if version is not None:
                raise NotFound("no_such_version", typed=name, version=version, known=names)
            raise NotFound("no_such_pattern", typed=name, known=names)
        return versions[-1]

    def versions(self, name: str) -> list[KeptPattern]:
        """Every version of one pattern, oldest first."""
        return [kept for kept in self._read() if key_of(kept.name) == key_of(name)]

    def newest_event(self, name: str) -> int:
        """The number of the entry that recorded its newest version; 0 where there is none."""
        versions = self.versions(name)
        if not versions:
            return 0
        history = self.ledger.history(f"pattern:{key_of(name)}/{versions[-1].version}")
        return next((event.id for event in history if event.stands), 0)

    def all(self) -> list[KeptPattern]:
        """The newest version of every pattern, by name."""
        newest = {key_of(kept.name): kept for kept in self._read()}
        return [newest[key] for key in sorted(newest)]

    def save(
        self, name: str, pattern: Pattern, token: str | None = None, *, source: str = ""
    ) -> Event:
        """Keep a new version; earlier ones stay."""
        if not is_name(name) or len(name) > 100:
            raise InvalidInput("pattern_name_wanted", most=100, field="name")
        if not pattern.pieces:
            raise InvalidInput("pattern_needs_piece", field="pieces")

        def make() -> Entry:
            version = self._latest_ever(name) + 1
            subject = f"pattern:{key_of(name)}/{version}"
            record = {
                "name": " ".join(name.split()), "version": version, "source": source,
                "pattern": to_plain(pattern),
            }
            kind = Kind.RECEIPT if version == 1 else Kind.CORRECTION
            return Entry(kind=kind, code=subject, change={subject: {"record": record}})

        return self.ledger.write(make, token)

    def remove(self, name: str, token: str | None = None) -> Event:
        """Take all versions off the list; undo brings them back."""

        def make() -> Entry:
            kept = self.kept(name)
            key = key_of(kept.name)
            change = {
                f"pattern:{key}/{k.version}": {"record": None} for k in self.versions(name)
            }
            return Entry(kind=Kind.DISCARD, code=f"pattern:{key}/{kept.version}", change=change)

        return self.ledger.write(make, token)

    def _read(self) -> list[KeptPattern]:
        rows = self.ledger.db.execute("SELECT record FROM record WHERE noun = 'pattern'")
        kept = [from_plain(KeptPattern, json.loads(record)) for (record,) in rows]
        return sorted(kept, key=lambda k: k.version)

    def _latest_ever(self, name: str) -> int:
        """The highest version there ever was, undone and removed ones too; 0 for none."""
        prefix = f"pattern:{key_of(name)}/"
        rows = self.ledger.db.execute(
            "SELECT DISTINCT subject FROM touched WHERE subject >= ? AND subject < ?",
            [prefix, prefix[:-1] + "0"],  # 0 is the character after /
        )
        rests = (subject.removeprefix(prefix) for (subject,) in rows)
        return max((int(rest) for rest in rests if rest.isdecimal()), default=0)
