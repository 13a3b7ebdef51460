"""The record kept safe: backups, copies, checks, and the way back."""

from __future__ import annotations

from pathlib import Path

from stash.errors import StashError
from stash.store import open_stash
from stash.store.backup import (
    backup_file,
    daily,
    export,
    integrity,
    repair,
    restore,
    second_place,
    verify,
)
from stash.store.backup.findings import Findings
from stash.store.backup.repair import Repaired
from stash.store.backup.second_place import Copied
from stash.store.opening import Stash
from stash.store.table import stock_table

__all__ = ["Copied", "Repaired", "Findings"]


def back_up(stash: Stash, file: Path) -> Findings:
    """Write everything, photographs too, to one file."""
    return backup_file.back_up(stash, file)


def take_out(
    stash: Stash, file: Path, *, photos: bool = False, measurements: bool = False
) -> Findings:
    """Write tables and JSON, every field described, to one zip."""
    return export.export(stash, file, photos=photos, measurements=measurements)


def verify_file(file: Path) -> Findings:
    """Look a backup or a copy through without bringing it back."""
    return verify.verify(file)


def bring_back(file: Path, data: Path, *, replace: bool = False) -> Findings:
    """Restore the record of a backup or a copy into a data folder."""
    return restore.restore(file, data, replace=replace)


def check_record(data: Path) -> Findings:
    """Whether the record is sound; nothing is changed."""
    return integrity.check(data)


def trouble_behind(data: Path) -> StashError | None:
    """A fault of the record that an unforeseen failure may come of; None where there is none."""
    try:
        with open_stash(data, keeping=False) as stash:
            return integrity.trouble_behind(stash)
    except StashError as error:
        return error


def put_right(data: Path, second: Path | None = None) -> Repaired:
    """Repair the record from what is sound of it and its newest good copy."""
    return repair.repair(data, second)


def good_copy(data: Path) -> Path | None:
    """The copy that a repair would bring back."""
    return repair.offered(data)


def copies(stash: Stash) -> list[Copied]:
    """Where copies are made, and when each place had its last one."""
    return second_place.last_copies(stash)


def copies_here(stash: Stash) -> list[Path]:
    """The copies in the data folder, one a day, newest first."""
    return daily.copies(stash.folder.copies)


def table(stash: Stash) -> str:
    """The cuts and bins that are here, as CSV for a spreadsheet."""
    return stock_table(stash)


def renew_second_place(data: Path) -> bool:
    """Bring the copies in the second place up to date; False when it cannot be reached.

    The page of copies shows how old the newest one there is.
    """
    try:
        with open_stash(data) as stash:
            second_place.renew(stash)
    except StashError:
        return False
    return True


def copy_also_to(data: Path, place: Path | None) -> None:
    """Name a second place for the copies, or none any more, and bring it up to date."""
    with open_stash(data, device="command line") as stash:
        second_place.name_place(stash, place)
        second_place.renew(stash)
