"""Do I already own one like this? The present cuts, searched by colour, words and weight."""

from __future__ import annotations

from stash.match.cloth.similar import Likeness, Wish, alike
from stash.store import Stash

__all__ = ["Likeness", "Wish", "ask_like"]


def ask_like(stash: Stash, wish: Wish, *, most: int = 20) -> tuple[Likeness, ...]:
    """The cuts that come nearest, nearest first."""
    return alike(stash.cuts.all(), wish, most=most)
