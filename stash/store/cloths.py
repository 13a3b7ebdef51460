"""Cloths: what the cuts are cut from. Cuts of one cloth share its description."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterable
from typing import Any

from stash.errors import InvalidInput, NotFound
from stash.ledger import NEEDS, CutState, Entry, Event, Kind
from stash.model import Cloth
from stash.model.exact import from_plain, to_plain
from stash.store.ledger import Ledger
from stash.store.naming import key_of


class Cloths:
    """Cloths by their subject ("cloth:..."), which every cut names."""

    def __init__(self, ledger: Ledger):
        self.ledger = ledger

    def get(self, subject: str) -> Cloth:
        """One cloth; NotFound when there is none."""
        record = self.ledger.state(subject)
        if record is None:
            raise NotFound("no_such_cloth")
        return from_plain(Cloth, record)

    def all(self) -> dict[str, Cloth]:
        """Every cloth by its subject."""
        rows = self.ledger.db.execute("SELECT subject, record FROM cloth ORDER BY name")
        return {subject: from_plain(Cloth, json.loads(record)) for subject, record in rows}

    def names(self, subjects: Iterable[str]) -> dict[str, str]:
        """What the cloths of these subjects are called."""
        return dict(self.ledger.db.execute(
            "SELECT subject, name FROM cloth WHERE subject IN (SELECT value FROM json_each(?))",
            [json.dumps(sorted(subjects))]).fetchall())

    def newest_names(self, most: int) -> list[str]:
        """The names of the cloths that came last, by name."""
        rows = self.ledger.db.execute(
            "SELECT DISTINCT name FROM (SELECT name FROM cloth ORDER BY rowid DESC LIMIT ?)"
            " ORDER BY name", [most])
        return [name for (name,) in rows]

    def named(self, name: str) -> Cloth | None:
        """The cloth of this name, however it is spelled; the first by name of several."""
        key = key_of(name)
        rows = self.ledger.db.execute("SELECT subject, name FROM cloth ORDER BY name = ? DESC,"
                                      " name", [name])
        subject = next((subject for subject, known in rows if key_of(known) == key), None)
        return self.get(subject) if subject else None

    def correct(self, code: str, cloth: Cloth, token: str | None = None) -> Event:
        """Describe the cloth of a cut anew, for all cuts of that cloth."""
        checked(cloth)

        def make() -> Entry:
            state = self.ledger.state(code)
            if not isinstance(state, CutState):
                raise NotFound("no_such_cut", code=code)
            change = {state.cloth: {"record": to_plain(cloth)}}
            return Entry(kind=Kind.CORRECTION, code=code, change=change)

        return self.ledger.write(make, token)

    def part(self, cloth: Cloth) -> tuple[str, dict[str, Any]]:
        """The subject of this very cloth, and what a receipt must say of it."""
        cloth = from_plain(Cloth, to_plain(checked(cloth)))  # 180 and 180.0 are one cloth
        record = to_plain(cloth)
        rows = self.ledger.db.execute(
            "SELECT subject, record FROM cloth WHERE name = ?", [cloth.name]
        )
        same = (s for s, kept in rows if from_plain(Cloth, json.loads(kept)) == cloth)
        known = next(same, None)
        subject = known or f"cloth:{secrets.token_hex(5)}"
        return subject, {subject: NEEDS if known else {"record": record}}


def checked(cloth: Cloth) -> Cloth:
    """The cloth itself; InvalidInput for what no cloth can be."""
    if not cloth.name.strip() or len(cloth.name) > 200:
        raise InvalidInput("cloth_name_wanted", most=200, field="name")
    if cloth.mass_gsm is not None and not 1 <= cloth.mass_gsm <= 3000:
        raise InvalidInput("no_cloth_weighs", mass_gsm=cloth.mass_gsm, field="mass_gsm")
    for field in ("shrink_along_pct", "shrink_across_pct"):
        if not -20 <= getattr(cloth, field) <= 50:
            raise InvalidInput("shrinkage_between", least_pct=-20, most_pct=50, field=field)
    for field in ("stretch_across_pct", "stretch_along_pct"):
        if not 0 <= getattr(cloth, field) <= 300:
            raise InvalidInput("stretch_between", least_pct=0, most_pct=300, field=field)
    total = sum(share.percent for share in cloth.fibres)
    if total > 101 or any(share.percent < 0 for share in cloth.fibres):
        raise InvalidInput("fibres_add_up_wrong", total_pct=total, field="fibres")
    return cloth
