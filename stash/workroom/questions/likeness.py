"""Do I already own one like this? The present cuts, searched by colour, words and weight."""

from __future__ import annotations

import json

from stash.match.cloth.similar import Likeness, Wish, alike, colour_apart, spellings
from stash.store import Stash, likely

__all__ = ["Likeness", "Wish", "ask_like"]

SPARE = 20
"""So many times more cuts are looked at closely than are shown."""


def ask_like(stash: Stash, wish: Wish, *, most: int = 20) -> tuple[Likeness, ...]:
    """The cuts that come nearest, nearest first."""
    db, masses, apart = stash.ledger.db, wish.masses_gsm, None
    if wish.colour:
        known = {subject: tuple(json.loads(written))
                 for subject, written in likely.colours(db, masses)}
        apart = colour_apart(known, wish.colour)
    codes = likely.codes(db, masses, spellings(wish.words), apart, SPARE * most)
    return alike([card.cut for card in stash.cuts.cards_of(codes)], wish, most=most)
