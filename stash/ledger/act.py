"""One act of a person is one entry, however much it changes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stash.ledger.event import NEEDS, Entry, Kind


def merged(entries: Sequence[Entry]) -> Entry:
    """All entries as one, so that one undo takes back all of it.

    Entries of one kind about different subjects keep their kind; any others become an
    entry of kind SEVERAL, which keeps their order subject by subject. It is mainly
    about what the first of them is about.
    """
    if len(entries) == 1:
        return entries[0]
    steps: dict[str, list[dict[str, Any]]] = {}
    for entry in entries:
        for subject, part in entry.change.items():
            known = steps.setdefault(subject, [])
            if part != NEEDS or not known:
                known.append({"kind": entry.kind.value, "part": part})
    code, kinds = entries[0].code, {entry.kind for entry in entries}
    if len(kinds) == 1 and all(len(known) == 1 for known in steps.values()):
        change = {subject: known[0]["part"] for subject, known in steps.items()}
        return Entry(kind=kinds.pop(), code=code, change=change)
    return Entry(
        kind=Kind.SEVERAL, code=code,
        change={subject: {"steps": known} for subject, known in steps.items()},
    )
