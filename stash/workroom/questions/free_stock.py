"""What of the stash is free: cuts without what plans hold, bins without what is promised."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from stash.ledger.selvedges import off_selvedges
from stash.ledger.shapes import without_stretch
from stash.match.cloth.shrinkage import WashHabit, as_laid
from stash.model import Bin, Cut, Outline
from stash.store import Stash
from stash.store.cuts import CutCard
from stash.store.naming import key_of
from stash.workroom.settings import preferences


@dataclass(frozen=True, kw_only=True)
class FreeStock:
    """The free part of every cut and bin, and the plans that hold the rest, by code."""

    cuts: tuple[Cut, ...]
    bins: tuple[Bin, ...]
    held_by: dict[str, tuple[str, ...]]
    taken_whole: dict[str, tuple[str, ...]]

    def cut(self, code: str) -> Cut | None:
        """One free cut."""
        return next((c for c in self.cuts if c.code == code), None)

    def washed(self, habit: WashHabit, *, presume: bool) -> FreeStock:
        """The same stock with each cut as it is to be laid: for its size after the wash or not."""
        laid = tuple(as_laid(cut, habit, presume=presume) for cut in self.cuts)
        return replace(self, cuts=laid)


def free_stash(stash: Stash, *, giving_up: Collection[str] = ()) -> FreeStock:
    """The stash as a new question sees it; the holds of plans ``giving_up`` are not counted.

    A cut that is held whole is not among the cuts but in ``taken_whole``. NotFound when
    there is no such plan to give up.
    """
    given = {key_of(stash.plans.get(name).name) for name in giving_up}
    cuts: list[Cut] = []
    held_by: dict[str, tuple[str, ...]] = {}
    whole: dict[str, tuple[str, ...]] = {}
    margin_mm = preferences(stash).selvedge_mm
    for card in stash.cuts.cards():
        if card.lent:
            continue
        holders = tuple(dict.fromkeys(h.plan for h in card.holds if key_of(h.plan) not in given))
        free = _free(card, given)
        if holders:
            (held_by if free else whole)[card.cut.code] = holders
        if free:
            usable = off_selvedges(free, card.cut.selvedges_mm, margin_mm)
            cuts.append(replace(card.cut, outline=usable))
    bins = tuple(
        replace(
            card.bin,
            amount=card.bin.amount - sum(
                hold.amount for hold in card.holds if key_of(hold.plan) not in given),
        )
        for card in stash.bins.cards()
    )
    return FreeStock(cuts=tuple(cuts), bins=bins, held_by=held_by, taken_whole=whole)


def _free(card: CutCard, given: set[str]) -> Outline | None:
    free: Outline | None = card.cut.outline
    for hold in card.holds:
        if free and key_of(hold.plan) not in given:
            free = without_stretch(free, hold.from_mm, hold.to_mm)
    return free
