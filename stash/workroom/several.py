"""Several things at once: moved, described; one act, one undo."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from stash.errors import InvalidInput
from stash.ledger import Event
from stash.model import Cloth
from stash.store import Stash
from stash.store.bins import BinCard
from stash.store.cuts import CutCard


def cards(stash: Stash, codes: Sequence[str]) -> tuple[list[CutCard], list[BinCard]]:
    """The cuts and the bins of these codes that are here, in their order."""
    cuts = [card for card in stash.cuts.cards_of(codes) if not card.gone]
    bins = [card for card in stash.bins.cards_of(codes) if not card.gone]
    return cuts, bins


def move(stash: Stash, codes: Sequence[str], place: str, token: str | None = None) -> Event:
    """All of them lie in this place now: its name, or the code of its label."""
    with stash.act(token) as act:
        cuts, bins = _some(stash, codes)
        for card in cuts:
            stash.cuts.move(card.cut.code, place)
        for held in bins:
            stash.bins.move(held.bin.code, place)
    return act.became


def describe(
    stash: Stash, codes: Sequence[str], change: Callable[[Cloth], Cloth],
    keep_for: str | None = None, token: str | None = None,
) -> Event | None:
    """What is changed on the cloths of these cuts, each once; what is said of each is kept.

    None when nothing is changed by it.
    """
    with stash.act(token) as act:
        cuts, _bins = _some(stash, codes)
        if not cuts:
            raise InvalidInput("tick_a_cut", field="code")
        done: set[str] = set()
        for card in cuts:
            cloth = change(card.cut.cloth)
            if card.cloth not in done and cloth != card.cut.cloth:
                stash.cloths.correct(card.cut.code, cloth)
            done.add(card.cloth)
            if keep_for and keep_for != card.cut.keep_for:
                stash.cuts.correct(card.cut.code, keep_for=keep_for)
    return act.event or act.earlier


def _some(stash: Stash, codes: Sequence[str]) -> tuple[list[CutCard], list[BinCard]]:
    cuts, bins = cards(stash, codes)
    if not cuts and not bins:
        raise InvalidInput("tick_something", field="code")
    return cuts, bins
