"""How happenings change one bin of notions."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from stash.errors import Conflict, Held, NotEnough
from stash.ledger.event import Kind
from stash.model import Notion
from stash.model.exact import from_plain
from stash.units import format_length

SLACK = 1e-6


@dataclass(frozen=True, kw_only=True)
class BinHold:
    """The part of a bin that a plan holds: a count or millimetres."""

    plan: str
    amount: float


@dataclass(frozen=True, kw_only=True)
class BinState:
    """A bin as the ledger knows it; an empty bin is still there until it is discarded."""

    notion: Notion
    amount: float
    place: str | None = None
    gone: str | None = None
    holds: tuple[BinHold, ...] = ()

    @property
    def held(self) -> float:
        """How much of it plans hold."""
        return sum(h.amount for h in self.holds)

    @property
    def free(self) -> float:
        """How much of it nothing holds; never less than nothing."""
        return max(self.amount - self.held, 0.0)


def received(part: Mapping[str, Any]) -> BinState:
    """The bin that a receipt brings in."""
    return from_plain(BinState, part)


def changed(state: BinState, kind: Kind, part: Mapping[str, Any], code: str) -> BinState:
    """The bin after this happening; Conflict or NotEnough when it cannot be."""
    if state.gone:
        raise Conflict(f"The bin {code} is no longer here: it was {state.gone}.")
    if kind not in STEPS:
        raise Conflict(f"A bin of notions cannot have a “{kind}”.")
    return STEPS[kind](state, part)


def amount_text(notion: Notion, amount: float) -> str:
    """"5" for things that are counted, "1.20 m" for those that are measured."""
    if notion.kind.counted:
        return f"{amount:g}"
    return format_length(amount) if amount else "nothing"


def _take(state: BinState, part: Mapping[str, Any]) -> BinState:
    plan, amount = part.get("plan"), part["amount"]
    left = state.amount - amount
    if left < -SLACK:
        have, asked = (amount_text(state.notion, a) for a in (state.amount, amount))
        raise NotEnough(
            f"{asked} cannot be taken: the record says {have} in this bin. If there is more, "
            "count the bin again.",
            asked=amount, available=state.amount,
        )
    others = tuple(h for h in state.holds if h.plan != plan)
    held = sum(h.amount for h in others)
    if left < held - SLACK and not part.get("despite_hold"):
        plans = tuple(h.plan for h in others)
        names = " and ".join(f"“{p}”" for p in plans)
        free = amount_text(state.notion, max(state.amount - held, 0.0))
        raise Held(
            f"The plan {names} holds {amount_text(state.notion, held)} of this bin, so {free} "
            "can be taken. Release it first, or say that it may be used all the same.",
            plans=plans,
        )
    return replace(state, amount=max(left, 0.0), holds=others if plan else state.holds)


def _put(state: BinState, part: Mapping[str, Any]) -> BinState:
    return replace(state, amount=state.amount + part["amount"])


def _count(state: BinState, part: Mapping[str, Any]) -> BinState:
    return replace(state, amount=part["amount"])


def _move(state: BinState, part: Mapping[str, Any]) -> BinState:
    return replace(state, place=part["place"])


def _hold(state: BinState, part: Mapping[str, Any]) -> BinState:
    hold = from_plain(BinHold, part)
    others = tuple(h for h in state.holds if h.plan != hold.plan)
    free = state.amount - sum(h.amount for h in others)
    if hold.amount > free + SLACK:
        asked, there = (amount_text(state.notion, a) for a in (hold.amount, max(free, 0.0)))
        raise NotEnough(
            f"{asked} cannot be held: {there} is free in this bin.",
            asked=hold.amount, available=max(free, 0.0),
        )
    return replace(state, holds=(*others, hold))


def _release(state: BinState, part: Mapping[str, Any]) -> BinState:
    kept = tuple(h for h in state.holds if h.plan != part["plan"])
    if len(kept) == len(state.holds):
        raise Conflict(f"The plan “{part['plan']}” holds nothing of this bin.")
    return replace(state, holds=kept)


def _leave(why: str) -> Callable[[BinState, Mapping[str, Any]], BinState]:
    def step(state: BinState, part: Mapping[str, Any]) -> BinState:
        if state.holds and not part.get("despite_hold"):
            plans = tuple(h.plan for h in state.holds)
            names = " and ".join(f"“{p}”" for p in plans)
            raise Held(f"The plan {names} holds part of this bin. Release it first.", plans=plans)
        return replace(state, gone=why, holds=())

    return step


def _correct(state: BinState, part: Mapping[str, Any]) -> BinState:
    return replace(state, notion=from_plain(Notion, part["notion"]))


STEPS: dict[Kind, Callable[[BinState, Mapping[str, Any]], BinState]] = {
    Kind.TAKE: _take,
    Kind.PUT: _put,
    Kind.COUNT: _count,
    Kind.MOVE: _move,
    Kind.HOLD: _hold,
    Kind.RELEASE: _release,
    Kind.GIFT: _leave("given away"),
    Kind.DISCARD: _leave("discarded"),
    Kind.CORRECTION: _correct,
}
