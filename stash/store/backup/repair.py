"""One step from a damaged or lost record back to a sound one, losing as little as can be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from stash.errors import NotFound, StashError, StoreTooNew
from stash.ledger import Event
from stash.ledger.chain import BEGINNING, checksum
from stash.store.backup import swap
from stash.store.backup.findings import Findings
from stash.store.backup.integrity import check
from stash.store.backup.restore import bring_in
from stash.store.backup.second_place import SETTING, candidates
from stash.store.backup.source import DAMAGE, StoredPhoto, opened, sound_events
from stash.store.backup.verify import ledger_faults
from stash.store.folder import DataFolder
from stash.store.opening import open_stash


@dataclass(frozen=True, kw_only=True)
class Repaired:
    """What was done: ``copy`` is what the events came from, None when the record's own served.

    ``saved`` events were recorded after that copy and could be kept; ``lost`` says how many
    are known to be lost, None where that cannot be known. ``before`` and ``after`` are the
    reports of a check.
    """

    copy: Path | None
    saved: int
    lost: int | None
    before: Findings
    after: Findings


def repair(place: Path, second: Path | None = None) -> Repaired:
    """Put the record in ``place`` right; a sound one is left as it is.

    What lay there before is put aside under ``copies``. NotFound when there is neither a
    sound ledger nor a copy to bring back.
    """
    folder = DataFolder(place)
    folder.prepare()
    with swap.alone(folder):
        if swap.is_ready(folder):
            swap.carry_through(folder)
        before = check(place)
        if before.ok and (before.events or not candidates(folder, second)):
            return Repaired(copy=None, saved=0, lost=0, before=before, after=before)
        own, newest = _own_events(folder)
        if own and not ledger_faults(own, newest):
            copy, events, saved = None, own, 0
        else:
            copy, kept = _newest_good(folder, second or _named_in(own))
            later = list(_following(kept, own))
            events, saved = [*kept, *later], len(later)
        bring_in(folder, events, _Photos(folder, second, events))
        lost = max(newest - len(events), 0) if newest is not None else None
        return Repaired(copy=copy, saved=saved, lost=lost, before=before, after=check(place))


def offered(place: Path) -> Path | None:
    """The newest good copy that :func:`repair` would bring back, or None."""
    try:
        return _newest_good(DataFolder(place), None)[0]
    except NotFound:
        return None


def _own_events(folder: DataFolder) -> tuple[list[Event], int | None]:
    """Those events of the damaged record that can still be read, and the last number given."""
    if not folder.database.exists() or folder.database.stat().st_size == 0:
        return [], None
    events: list[Event] = []
    newest = None
    try:
        with open_stash(folder.path, keeping=False) as stash:
            newest = stash.ledger.newest()
            events.extend(event for _, event in stash.ledger.rows() if event)
    except (StashError, *DAMAGE):
        pass  # what was read until here is all there is
    return events, newest


def _newest_good(folder: DataFolder, second: Path | None) -> tuple[Path, list[Event]]:
    for copy in candidates(folder, second):
        try:
            with opened(copy) as source:
                events = list(sound_events(copy, source))
        except StoreTooNew:
            raise
        except StashError:
            continue
        if events and not ledger_faults(events):
            return copy, events
    raise NotFound("no_good_copy", path=str(folder.copies))


def _following(kept: list[Event], own: list[Event]) -> Iterator[Event]:
    """Events of the damaged record that were written after the copy and still fit its chain."""
    number = kept[-1].id if kept else 0
    before = kept[-1].checksum if kept else BEGINNING
    for event in own:
        if event.id <= number:
            continue
        if event.id != number + 1 or event.checksum != checksum(before, event):
            return
        number, before = event.id, event.checksum
        yield event


def _named_in(events: list[Event]) -> Path | None:
    """The second place, from the settings as far as they can be read."""
    for event in reversed(events):
        part = event.change.get(f"setting:{SETTING}") or {}
        if (record := part.get("record")) and record.get("value"):
            return Path(record["value"])
    return None


class _Photos:
    """The photographs that are missing or damaged here and lie sound beside the copies."""

    def __init__(self, folder: DataFolder, second: Path | None, events: list[Event]):
        self.folder, self._events = folder, events
        self._pools = [folder.copies / "photos",
                       *(second.glob("lengthwise-*/photos") if second else ())]

    @property
    def unpacked_bytes(self) -> int:
        return 0

    def events(self) -> Iterator[Event]:
        yield from self._events

    def photos(self) -> list[StoredPhoto]:
        found = {StoredPhoto(p.parent.name, p.name)
                 for pool in self._pools for p in pool.glob("*/*.jpg")}
        return sorted((p for p in found if not self._sound_here(p)),
                      key=lambda photo: (photo.code, photo.name))

    def content(self, photo: StoredPhoto) -> bytes | None:
        for pool in self._pools:
            content = _read(pool / photo.code / photo.name)
            if content and photo.fits(content):
                return content
        return None

    def _sound_here(self, photo: StoredPhoto) -> bool:
        content = _read(self.folder.photos / photo.code / photo.name)
        return bool(content) and photo.fits(content or b"")


def _read(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None
