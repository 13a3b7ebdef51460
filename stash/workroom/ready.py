"""Getting ready to search: a search's seconds are for searching, not for compiling."""

from __future__ import annotations

from stash.lay.warm import is_warm, warm

__all__ = ["is_warm", "warm"]
