"""What a phone may keep to read without a network: one line for each cut and bin."""

from __future__ import annotations

from dataclasses import dataclass

from stash.model import Bin, Cut
from stash.store import Stash
from stash.workroom.explaining import whole_mm


@dataclass(frozen=True, kw_only=True)
class KeptCut:
    """A cut as it is kept: what is whole of it, and for which plans it is held."""

    cut: Cut
    whole_mm: tuple[float, float]
    held_for: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Kept:
    """Everything here, newest first."""

    cuts: tuple[KeptCut, ...]
    bins: tuple[Bin, ...]


def as_of(stash: Stash) -> int:
    """The newest event: while it is the same, so is the copy."""
    return stash.ledger.newest()


def kept(stash: Stash) -> Kept:
    """The stash for a pocket."""
    return Kept(
        cuts=tuple(
            KeptCut(cut=card.cut, whole_mm=whole_mm(card.cut.outline),
                    held_for=tuple(dict.fromkeys(hold.plan for hold in card.holds)))
            for card in stash.cuts.cards()),
        bins=tuple(card.bin for card in stash.bins.cards()),
    )
