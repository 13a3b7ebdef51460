"""What a phone may keep to read without a network: one line for each cut and bin."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stash.fact import Fact, fact
from stash.model import Bin, Cut
from stash.store import Stash
from stash.workroom.explaining import whole_mm
from stash.workroom.questions.plan_view import show_plan


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


@dataclass(frozen=True, kw_only=True)
class KnownNeed:
    """A lay that is known: so wide a cloth gives it from so long a one, once washed."""

    what: str
    width_mm: float
    length_mm: float


SHRINKS_PCT = 5.0
"""What a bolt is taken to lose lengthwise where nobody says: as on the shopping list."""


def needs(stash: Stash) -> tuple[KnownNeed, ...]:
    """What the lays that plans hold would need of other cloth."""
    found = []
    for plan in stash.plans.all():
        for laid in show_plan(stash, plan.name).lays.values():
            found.append(KnownNeed(
                what=f"{plan.name}: {laid.cut.cloth.name}", width_mm=laid.lay.width_mm,
                length_mm=laid.lay.length_mm))
    return tuple(found)


def enough(
    known: Iterable[KnownNeed], width_mm: float, length_mm: float,
    shrinks_pct: float = SHRINKS_PCT,
) -> Fact:
    """Whether so much of a bolt is enough, by the lays already known: no new one is searched.

    A lay fits on any cloth at least as wide; of those the shortest counts.
    """
    lays = sorted(known, key=lambda need: need.length_mm)
    wide = [need for need in lays if need.width_mm <= width_mm + 1e-6]
    if not wide:
        narrowest = min((need.width_mm for need in lays), default=0.0)
        return fact("enough_not_known", least_width_mm=narrowest)
    needed = wide[0].length_mm / (1 - shrinks_pct / 100)
    if needed <= length_mm:
        return fact("enough_yes", needed_length_mm=needed, spare_length_mm=length_mm - needed)
    return fact("enough_no", needed_length_mm=needed, short_length_mm=needed - length_mm)


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
