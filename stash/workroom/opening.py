"""Opening a stash: every act and question is put to what this hands out."""

from __future__ import annotations

from stash.store import Stash, open_stash

__all__ = ["Stash", "open_stash"]
