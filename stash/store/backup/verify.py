"""Looking a backup or a copy through without bringing it back."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from stash.errors import StashError
from stash.fact import Fact, fact
from stash.ledger import Event, fold
from stash.ledger.chain import broken
from stash.store.backup.findings import Findings
from stash.store.backup.source import Source, StoredPhoto, opened, sound_events
from stash.store.piece_photos import PIECES, numbers_in


def verify(path: Path) -> Findings:
    """Everything in a file read, checked and folded; what is wrong is in the report.

    StashError only when there is no such file, it cannot be read, or a newer version wrote it.
    """
    with opened(path) as source:
        try:
            events = list(sound_events(path, source))
        except StashError as error:
            return Findings(photos=len(source.photos()), faults=(error.fact,))
        faults = [*ledger_faults(events), *_photo_faults(source, events)]
        return Findings(events=len(events), photos=len(source.photos()), faults=tuple(faults))


def ledger_faults(events: list[Event], newest: int | None = None) -> list[Fact]:
    """Where the chain is broken, and whether the events can be followed at all.

    A backup of a version that had no checksums is judged by its digest alone.
    """
    faults: list[Fact] = []
    if any(event.checksum for event in events):
        faults = [fact(b.how.value, first=b.first, last=b.last)
                  for b in broken(events, newest)]
    try:
        fold(events)
    except (StashError, LookupError, TypeError, ValueError, AttributeError):
        faults.append(fact("events_do_not_follow"))
    return faults


def recorded_photos(events: Iterable[Event]) -> list[StoredPhoto]:
    """Every photograph that was ever kept: an undo may bring back one that was taken off."""
    found: dict[StoredPhoto, None] = {}
    for event in events:
        for subject, part in event.change.items():
            noun, _, rest = subject.partition(":")
            if noun == "photo" and part:
                code, _, number = rest.partition("/")
                found[StoredPhoto(code, f"{number}.jpg")] = None
            elif noun == "pattern" and part:
                for number in numbers_in(part.get("record")):
                    found[StoredPhoto(PIECES, f"{number}.jpg")] = None
    return list(found)


def _photo_faults(source: Source, events: list[Event]) -> list[Fact]:
    there = source.photos()
    faults = [
        photo.fault("damaged")
        for photo in there if source.content(photo) is None
    ]
    known = set(there)
    return faults + [
        photo.fault("missing")
        for photo in recorded_photos(events) if photo not in known
    ]
