"""Her own patterns as a list: what there is, read without what drafts or draws."""

from __future__ import annotations

from stash.store import Stash
from stash.store.patterns import KeptPattern


def everything(stash: Stash) -> list[KeptPattern]:
    """The newest version of every pattern, by name."""
    return stash.patterns.all()
