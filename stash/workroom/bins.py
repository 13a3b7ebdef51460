"""Bins of notions: recorded, taken from, counted, moved, and gone."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from stash.errors import InvalidInput
from stash.ledger import Event
from stash.model import Bin, Notion, NotionKind
from stash.model.notions import MOST_THICK_MM, out_of_place
from stash.notions.buttons import buttonhole_for
from stash.store import Stash
from stash.store.bins import BinCard
from stash.workroom.finding import bin_cards, bin_kinds
from stash.workroom.recorded import Recorded

__all__ = ["BinCard"]

BinRecorded = Recorded[BinCard]


def card(stash: Stash, code: str) -> BinCard:
    """One bin, here or gone, with what holds of it."""
    return stash.bins.card(code)


def held(stash: Stash, code: str) -> Bin:
    """A bin that is here; NotFound when it is unknown or gone."""
    return stash.bins.get(code)


def cards(
    stash: Stash, *, gone: bool = False, kind: str | None = None, words: str | None = None
) -> list[BinCard]:
    """The bins that are here (or those that are gone), newest first, narrowed down."""
    found = bin_cards(stash, words) if words and not gone else stash.bins.cards(gone=gone)
    return [card for card in found if kind in (None, card.bin.notion.kind.value)]


def kinds(stash: Stash) -> dict[str, str]:
    """The kind of each present bin by its code, the newest first."""
    return stash.bins.kinds()


def answering(stash: Stash, words: str, size_said: Callable[[float], str]) -> dict[str, str]:
    """As :func:`kinds` for the bins that hold every word; ``size_said`` says a size in mm."""
    return bin_kinds(stash, words, size_said)


def cards_of(stash: Stash, codes: Sequence[str]) -> list[BinCard]:
    """So many bins, in this order."""
    return stash.bins.cards_of(codes)


def receive(
    stash: Stash, held: Bin, code: str | None = None, token: str | None = None
) -> BinRecorded:
    """A new bin comes in, under a blank label's code or a fresh one.

    InvalidInput names a fact that nothing of its kind has: a button is not fusible.
    """
    _refuse_out_of_place(held.notion)
    return _recorded(stash, stash.bins.receive(held, code, token))


def take(
    stash: Stash, code: str, amount: float, token: str | None = None, *,
    plan: str | None = None, despite_hold: bool = False,
) -> BinRecorded:
    """A count, or a length in mm, was taken out, for a plan or for nothing in particular."""
    return _recorded(
        stash, stash.bins.take(code, amount, token, plan=plan, despite_hold=despite_hold))


def take_share(
    stash: Stash, code: str, share: float, token: str | None = None, *,
    plan: str | None = None, despite_hold: bool = False,
) -> BinRecorded:
    """About so much of what is in it was used: 0.5 of a spool; things are counted whole."""
    with stash.act(token):
        bin = stash.bins.get(code)
        amount = bin.amount * share
        if bin.notion.kind.counted:
            amount = float(max(round(amount), 1))
        event = stash.bins.take(code, amount, plan=plan, despite_hold=despite_hold)
    return _recorded(stash, event)


def put(stash: Stash, code: str, amount: float, token: str | None = None) -> BinRecorded:
    """More of the same was put in."""
    return _recorded(stash, stash.bins.put(code, amount, token))


def count(stash: Stash, code: str, amount: float, token: str | None = None) -> BinRecorded:
    """It was counted or measured: this much is in it."""
    return _recorded(stash, stash.bins.count(code, amount, token))


def move(stash: Stash, code: str, place: str | None, token: str | None = None) -> BinRecorded:
    """It stands in another place now: the place's name, or the code of its label."""
    return _recorded(stash, stash.bins.move(code, place, token))


def give_away(
    stash: Stash, code: str, token: str | None = None, *, despite_hold: bool = False
) -> BinRecorded:
    """It was given away."""
    return _recorded(stash, stash.bins.gift(code, token, despite_hold=despite_hold))


def throw_away(
    stash: Stash, code: str, token: str | None = None, *, despite_hold: bool = False
) -> BinRecorded:
    """It was thrown away."""
    return _recorded(stash, stash.bins.discard(code, token, despite_hold=despite_hold))


def describe(
    stash: Stash, code: str, notion: Notion, token: str | None = None
) -> BinRecorded | None:
    """What is on record about what is in it is put right; None when nothing is changed."""
    if notion == stash.bins.get(code).notion:
        return None
    _refuse_out_of_place(notion)
    return _recorded(stash, stash.bins.correct(code, notion, token))


def buttonhole_of(held: Bin) -> float | None:
    """How long a hole these buttons want; None of anything else, or where no size is known."""
    notion = held.notion
    if notion.kind is not NotionKind.BUTTON or not notion.size_mm:
        return None
    return buttonhole_for(notion)


def _refuse_out_of_place(notion: Notion) -> None:
    if (notion.thickness_mm or 0.0) > MOST_THICK_MM:
        raise InvalidInput("button_too_thick", most_small_mm=MOST_THICK_MM, field="thickness")
    for name in out_of_place(notion):
        raise InvalidInput(f"no_{name}_of_that_kind", field=name)


def _recorded(stash: Stash, event: Event) -> BinRecorded:
    return Recorded(event=event, now=stash.bins.card(event.code))
