"""Keeping the stash safe: one file out, one file in, copies, and whether the record is sound."""

from __future__ import annotations

from pathlib import Path

from stash.errors import Conflict
from stash.store import Stash
from stash.store.copies import copies
from stash.store.parcel import Unpacked, pack, unpack
from stash.store.table import stock_table

__all__ = ["Unpacked"]


def write_backup(stash: Stash, path: Path) -> int:
    """Write the whole stash to one file; the number of entries in it."""
    return pack(stash, path)


def bring_backup(stash: Stash, path: Path) -> Unpacked:
    """Bring a stash from such a file, or from a daily copy, into an empty data folder."""
    return unpack(stash, path)


def table(stash: Stash) -> str:
    """The cuts and bins that are here, as CSV."""
    return stock_table(stash)


def daily_copies(stash: Stash) -> list[Path]:
    """The copies made once a day, newest first."""
    return copies(stash.folder.copies)


def check(stash: Stash) -> int:
    """How many things agree with the ledger; Conflict, once put right, for what did not.

    Unavailable when the file itself is damaged.
    """
    stash.check_file()
    with stash.together():  # nobody writes between the two
        before = stash.ledger.cached()
        after = stash.ledger.replay()
    changed = sorted(s for s in before.keys() | after.keys() if before.get(s) != after.get(s))
    if changed:
        raise Conflict("record_put_right", names=tuple(changed[:10]))
    return len(after)
