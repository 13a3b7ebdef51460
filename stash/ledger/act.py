"""One act of a person is one entry, however much it changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from stash.ledger.event import NEEDS, Entry, Event, Kind


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


def taken_apart(event: Event) -> tuple[Event, ...]:
    """An event of kind SEVERAL step by step, what it is mainly about first; else the event.

    Each step is about one subject, which is its ``code``.
    """
    if event.kind is not Kind.SEVERAL:
        return (event,)
    subjects = sorted(event.change, key=lambda subject: subject != event.code)
    return tuple(
        replace(event, kind=Kind(step["kind"]), code=subject, change={subject: step["part"]})
        for subject in subjects for step in event.change[subject]["steps"]
        if step["part"] != NEEDS
    )
