"""Cuts of cloth: recorded, used, washed, measured again, moved, and gone."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.ledger import Event
from stash.ledger.shapes import resized, shrinkage_pct, without_corner
from stash.model import Cloth, Cut, Outline, ShrinkStatus
from stash.store import Stash
from stash.store.cuts import CutCard
from stash.store.naming import key_of
from stash.workroom.recorded import Recorded

__all__ = ["CutCard", "Washed"]

CutRecorded = Recorded[CutCard]


def card(stash: Stash, code: str) -> CutCard:
    """One cut, here or gone, with what holds it."""
    return stash.cuts.card(code)


def cut(stash: Stash, code: str) -> Cut:
    """A cut that is here; NotFound when it is unknown or gone."""
    return stash.cuts.get(code)


def cards(
    stash: Stash, *, gone: bool = False, words: str | None = None, place: str | None = None
) -> list[CutCard]:
    """The cuts that are here (or those that are gone), newest first, narrowed down."""
    found = stash.cuts.cards(gone=gone)
    if words is not None:
        named = set(stash.search(words))
        found = [card for card in found if card.cut.code in named]
    if place is not None:
        there = set(stash.places.contents(place))
        found = [card for card in found if card.cut.code in there]
    return found


def receive(
    stash: Stash, cut: Cut, code: str | None = None, token: str | None = None
) -> CutRecorded:
    """A new cut comes in, under a blank label's code or a fresh one."""
    return _recorded(stash, stash.cuts.receive(cut, code, token))


def cut_off(
    stash: Stash, code: str, length_mm: float, token: str | None = None, *,
    despite_hold: bool = False,
) -> CutRecorded:
    """A length is cut off."""
    return _recorded(
        stash, stash.cuts.cut_off(code, length_mm, token, despite_hold=despite_hold))


def remains(
    stash: Stash, code: str, length_mm: float, token: str | None = None, *,
    despite_hold: bool = False,
) -> CutRecorded:
    """So much length is left, whatever was used; 0 when it was used up."""
    return _recorded(
        stash, stash.cuts.remains(code, length_mm, token, despite_hold=despite_hold))


def measure(
    stash: Stash, code: str, length_mm: float, width_mm: float, token: str | None = None, *,
    corner_mm: tuple[float, float] | None = None,
) -> CutRecorded:
    """It was measured again: its outline takes the new size and keeps its shape.

    ``corner_mm`` is a corner that turned out to be missing, length by width.
    """
    with stash.act(token):
        outline = resized(stash.cuts.get(code).outline, length_mm, width_mm)
        if corner_mm:
            outline = without_corner(outline, *corner_mm)
        event = stash.cuts.remeasure(code, outline)
    return _recorded(stash, event)


def traced(stash: Stash, code: str, outline: Outline, token: str | None = None) -> CutRecorded:
    """Its outline was traced: that is its shape from now on."""
    return _recorded(stash, stash.cuts.remeasure(code, outline, token))


@dataclass(frozen=True, kw_only=True)
class Washed(Recorded[CutCard]):
    """A wash, with what the cut lost in it, in per cent."""

    shrank_along_pct: float
    shrank_across_pct: float


def wash(
    stash: Stash, code: str, length_mm: float | None = None, width_mm: float | None = None,
    token: str | None = None, *, for_cloth: bool = False,
) -> Washed:
    """It was washed; what was measured after it wins over the shrinkage on record.

    The outline is scaled, never replaced, so a corner that was missing stays missing.
    Measured, the shrinkage is kept with a cloth that has none yet, for its other cuts;
    ``for_cloth`` keeps it also where another figure is on record.
    """
    with stash.act(token):
        before = stash.cuts.get(code)
        after = None
        if length_mm or width_mm:
            reckoned = before.outline_washed
            after = resized(
                before.outline, length_mm or reckoned.length_mm, width_mm or reckoned.width_mm)
        event = stash.cuts.wash(code, outline=after)
        along, across = shrinkage_pct(before.outline, stash.cuts.get(code).outline)
        first = after is not None and not before.cloth.shrink_known
        if (for_cloth or first) and not before.washed:
            stash.cloths.correct(before.code, replace(
                before.cloth, shrink_along_pct=along, shrink_across_pct=across,
                shrink_status=ShrinkStatus.SISTER, shrink_from=before.code))
    return Washed(
        event=event, now=stash.cuts.card(event.code), shrank_along_pct=along,
        shrank_across_pct=across)


def move(stash: Stash, code: str, place: str | None, token: str | None = None) -> CutRecorded:
    """It lies in another place now: the place's name, or the code of its label."""
    return _recorded(stash, stash.cuts.move(code, place, token))


def give_away(
    stash: Stash, code: str, token: str | None = None, *, despite_hold: bool = False
) -> CutRecorded:
    """It was given away."""
    return _recorded(stash, stash.cuts.gift(code, token, despite_hold=despite_hold))


def throw_away(
    stash: Stash, code: str, token: str | None = None, *, despite_hold: bool = False
) -> CutRecorded:
    """It was thrown away."""
    return _recorded(stash, stash.cuts.discard(code, token, despite_hold=despite_hold))


def describe(
    stash: Stash, code: str, cloth: Cloth, keep_for: str | None, token: str | None = None
) -> CutRecorded | None:
    """What is on record about its cloth, and what it is kept for, is put right.

    None when nothing is changed by it.
    """
    known = stash.cuts.get(code)
    if (cloth, keep_for) == (known.cloth, known.keep_for):
        return None
    with stash.act(token):
        event = stash.cloths.correct(code, cloth)
        if keep_for != stash.cuts.get(code).keep_for:
            stash.cuts.correct(code, keep_for=keep_for)
    return _recorded(stash, event)


def cloths(stash: Stash) -> list[Cloth]:
    """Every cloth on record, by name."""
    return list(stash.cloths.all().values())


def cloth_named(stash: Stash, name: str) -> Cloth | None:
    """The cloth on record of this name, or None."""
    return next((c for c in cloths(stash) if key_of(c.name) == key_of(name)), None)


def _recorded(stash: Stash, event: Event) -> CutRecorded:
    return Recorded(event=event, now=stash.cuts.card(event.code))
