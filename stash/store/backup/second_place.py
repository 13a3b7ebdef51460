"""The copies once more in a place that a person names, best on another disk."""

from __future__ import annotations

import os
import shutil
import threading
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from stash.errors import InvalidInput, Unavailable
from stash.store.backup.daily import copies, keep_photos
from stash.store.folder import DataFolder, private_file, private_folder
from stash.store.opening import Stash

SETTING = "second_place"


@dataclass(frozen=True, kw_only=True)
class Copied:
    """Where the newest copy lies, and when it was made (ISO 8601, local); None: there is none."""

    place: str
    newest: Path | None
    at: str | None


def name_place(stash: Stash, place: Path | None, token: str | None = None) -> None:
    """Copy there too from now on, or nowhere else any more; InvalidInput for no fit place."""
    if place is None:
        stash.settings.set(SETTING, "", token)
        return
    try:
        place = place.expanduser().resolve()
        there = place.is_dir()
    except (OSError, RuntimeError) as error:  # a name no disk can hold, links in a circle, no home
        raise InvalidInput("no_such_folder", path=str(place)) from error
    if place.is_relative_to(stash.folder.path.resolve()):
        raise InvalidInput("second_place_inside", path=str(place))
    if not there:
        raise InvalidInput("no_such_folder", path=str(place))
    stash.settings.set(SETTING, str(place), token)


def named(stash: Stash) -> Path | None:
    """The second place, or None where none was named."""
    said = stash.settings.get(SETTING, "")
    return Path(said) if said else None


def renew(stash: Stash, stop: threading.Event | None = None) -> None:
    """Bring the second place up to date; Unavailable when it cannot be reached or is full."""
    if (place := named(stash)) is None:
        return
    kept = _own(stash, place)
    try:
        if not place.is_dir():
            raise FileNotFoundError(2, os.strerror(2))
        private_folder(kept)
        wanted = copies(stash.folder.copies)
        for copy in wanted:
            if not (kept / copy.name).exists():
                draft = kept / f"{copy.name}.{os.getpid()}.part"
                shutil.copyfile(copy, private_file(draft))
                draft.replace(kept / copy.name)
        for old in copies(kept)[len(wanted):]:
            old.unlink()
        keep_photos(stash.folder.photos, kept / "photos", stop)
    except OSError as error:
        raise Unavailable(
            "second_place_lost", path=str(place), reason=error.strerror or str(error)) from error


def last_copies(stash: Stash) -> list[Copied]:
    """For the data folder and the second place: the newest copy and its moment."""
    places = [(str(stash.folder.copies), stash.folder.copies)]
    if (place := named(stash)) is not None:
        places.append((str(place), _own(stash, place)))
    return [_newest(said, kept) for said, kept in places]


def candidates(folder: DataFolder, second: Path | None = None) -> list[Path]:
    """Every copy a record may be brought back from, newest first."""
    places = [folder.copies, *(second.glob("lengthwise-*") if second else ())]
    found = [copy for place in places for copy in copies(place)]
    before = sorted(folder.copies.glob("before-*.db"), key=lambda p: p.stat().st_mtime)
    return sorted(found, key=lambda path: path.name, reverse=True) + before[::-1]


def _newest(said: str, kept: Path) -> Copied:
    found = copies(kept)
    if not found:
        return Copied(place=said, newest=None, at=None)
    at = datetime.fromtimestamp(found[0].stat().st_mtime).astimezone().isoformat(timespec="seconds")
    return Copied(place=said, newest=found[0], at=at)


def _own(stash: Stash, place: Path) -> Path:
    """One folder a stash, so that two may share a disk."""
    return place / f"lengthwise-{stash.settings.instance}"
