"""Do I already own one like this? The present cuts, searched by colour, words and weight."""

from __future__ import annotations

import json

from stash.match.cloth.similar import (
    Likeness,
    NotionLikeness,
    Wish,
    alike,
    colour_apart,
    spellings,
)
from stash.store import Stash, likely

__all__ = ["Likeness", "NotionLikeness", "Wish", "ask_like", "ask_notions_like"]

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


def ask_notions_like(stash: Stash, colour: str, *, most: int = 12) -> tuple[NotionLikeness, ...]:
    """The thread, buttons, ribbons nearest a colour, nearest first."""
    known = {code: (own,) for code, own in likely.bin_colours(stash.ledger.db)}
    apart = sorted(colour_apart(known, colour).items(), key=lambda one: one[1])[:most]
    cards = stash.bins.cards_of([code for code, _ in apart])
    held = {card.bin.code: card.bin for card in cards}
    return tuple(NotionLikeness(held[code], far) for code, far in apart)
