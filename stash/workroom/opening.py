"""Opening a stash: every act and question is put to what this hands out."""

from __future__ import annotations

import getpass
from pathlib import Path

from stash.store import Stash, open_stash
from stash.store.folder import DataFolder
from stash.store.trouble import trouble_of

__all__ = ["Stash", "account", "has_stash", "open_stash", "secret_key", "trouble_of"]


def account() -> str:
    """Who works at this computer, as its system knows her; empty where it does not say."""
    try:
        return getpass.getuser()[:60]
    except (OSError, KeyError, ImportError):
        return ""


def has_stash(data: Path) -> bool:
    """Whether there is a record in this data folder already."""
    return DataFolder(data).recorded


def secret_key(data: Path) -> str:
    """What the pages sign their cookies with; the data folder is made if it is not there."""
    folder = DataFolder(data)
    folder.prepare()
    return folder.secret_key()
