"""The record kept on disk: SQLite through sqlite-utils."""

from stash.store.opening import Stash, open_stash

__all__ = ["Stash", "open_stash"]
