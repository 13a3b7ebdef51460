"""Label codes: reserved before they are given to anything, printed, and taken."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from random import SystemRandom
from typing import Any

from stash.errors import Conflict, InvalidInput
from stash.fact import Term
from stash.ledger import Entry, Event, Kind
from stash.model import Code
from stash.store.ledger import Ledger

MOST_AT_ONCE = 5000


@dataclass(frozen=True, kw_only=True)
class LabelRecord:
    """A code and what it stands for: ``what`` is blank, cut, bin, place or unknown.

    ``printed`` is what the label said when it was last printed, ``printed_at`` when.
    """

    code: str
    what: str
    printed_at: str | None = None
    printed: Mapping[str, Any] | None = None


class Labels:
    """Every code this stash has ever made or met."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def reserve(self, count: int, token: str | None = None) -> list[str]:
        """New codes for blank labels, different from all codes ever."""
        if not 1 <= count <= MOST_AT_ONCE:
            raise InvalidInput("labels_at_once", most=MOST_AT_ONCE)

        def make() -> Entry:
            codes: set[str] = set()
            while len(codes) < count:
                codes.add(self.new_code())
            return Entry(
                kind=Kind.RECEIPT, code="labels",
                change={f"label:{code}": {"record": {}} for code in sorted(codes)},
            )

        event = self.ledger.write(make, token)
        return [subject.removeprefix("label:") for subject in event.change]

    def get(self, typed: str) -> LabelRecord:
        """What a code stands for; InvalidInput when it is not a code at all."""
        code = Code.parse(typed).text
        record = self.ledger.state(f"label:{code}")
        known = record if isinstance(record, Mapping) else {}
        return LabelRecord(
            code=code, what=self._what(code, record is not None),
            printed_at=known.get("printed_at"), printed=known.get("printed"),
        )

    def state(self, typed: str) -> str:
        """"blank", "cut", "bin", "place" or "unknown"."""
        return self.get(typed).what

    def printed(self, contents: Mapping[str, Mapping[str, Any]], token: str | None = None) -> Event:
        """Remember what was printed for each code, so that a change can be noticed later."""
        at = self.ledger.hand.clock().isoformat(timespec="seconds")
        change = {
            f"label:{Code.parse(code).text}": {"record": {"printed_at": at, "printed": dict(said)}}
            for code, said in contents.items()
        }
        if not change:
            raise InvalidInput("no_label_printed")
        entry = Entry(kind=Kind.CORRECTION, code="labels", change=change)
        return self.ledger.write(lambda: entry, token)

    def all_printed(self) -> dict[str, Mapping[str, Any]]:
        """What each printed label says, by its code."""
        rows = self.ledger.db.execute("SELECT subject, record FROM record WHERE noun = 'label'")
        read = {subject.removeprefix("label:"): json.loads(record) for subject, record in rows}
        return {code: record["printed"] for code, record in read.items() if "printed" in record}

    def blank(self) -> list[str]:
        """Codes that are reserved and not yet given to anything."""
        rows = self.ledger.db.execute(
            "SELECT substr(subject, 7) AS code FROM record WHERE noun = 'label'"
            " AND code NOT IN (SELECT code FROM cut) AND code NOT IN (SELECT code FROM bin)"
            " AND 'place:' || code NOT IN (SELECT subject FROM record) ORDER BY code"
        )
        return [code for (code,) in rows]

    def claim(self, typed: str | None) -> str:
        """The code for something new: a blank one that was scanned, or a fresh one.

        Conflict when the label is already on something else.
        """
        if not typed:
            return self.new_code()
        label = self.get(typed)
        if label.what not in ("blank", "unknown"):
            raise Conflict("label_taken", code=label.code, what=Term(label.what))
        return label.code

    def new_code(self) -> str:
        """A code that was never used for anything here."""
        random = SystemRandom()
        while True:
            code = Code.draw(random).text
            met = self.ledger.db.execute(  # the tables too: an act is not yet an event
                "SELECT 1 FROM touched WHERE subject IN (:code, :label, :place)"
                " UNION ALL SELECT 1 FROM cut WHERE code = :code"
                " UNION ALL SELECT 1 FROM bin WHERE code = :code"
                " UNION ALL SELECT 1 FROM record WHERE subject IN (:label, :place) LIMIT 1",
                {"code": code, "label": f"label:{code}", "place": f"place:{code}"},
            ).fetchone()
            if met is None:
                return code

    def _what(self, code: str, reserved: bool) -> str:
        found = self.ledger.db.execute(
            "SELECT 'cut' FROM cut WHERE code = :code UNION ALL"
            " SELECT 'bin' FROM bin WHERE code = :code UNION ALL"
            " SELECT 'place' FROM record WHERE subject = 'place:' || :code",
            {"code": code},
        ).fetchone()
        return found[0] if found else "blank" if reserved else "unknown"
