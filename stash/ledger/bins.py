"""How happenings change one bin of notions."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from stash.errors import Conflict, Held, NotEnough
from stash.fact import Fact, Term, fact
from stash.ledger.event import Kind
from stash.model import Notion
from stash.model.exact import from_plain

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
        raise Conflict("bin_gone", code=code, how=Term(state.gone))
    if kind not in STEPS:
        raise Conflict("not_for_bins", what=kind.called)
    return STEPS[kind](state, part)


def so_much(notion: Notion, amount: float) -> Fact:
    """"5" for things that are counted, "1.20 m" for those that are measured."""
    if notion.kind.counted:
        return fact("so_many", number=amount)
    return fact("so_much", length_mm=amount) if amount else fact("nothing")


def _take(state: BinState, part: Mapping[str, Any]) -> BinState:
    plan, amount = part.get("plan"), part["amount"]
    left = state.amount - amount
    if left < -SLACK:
        raise NotEnough(
            fact("not_so_much_in_bin", wanted=so_much(state.notion, amount),
                 there=so_much(state.notion, state.amount)),
            asked=amount, available=state.amount,
        )
    others = tuple(h for h in state.holds if h.plan != plan)
    held = sum(h.amount for h in others)
    if left < held - SLACK and not part.get("despite_hold"):
        plans = tuple(h.plan for h in others)
        free = so_much(state.notion, max(state.amount - held, 0.0))
        raise Held(
            fact("bin_held", plans=plans, held=so_much(state.notion, held), free=free),
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
        raise NotEnough(
            fact("bin_cannot_hold", wanted=so_much(state.notion, hold.amount),
                 free=so_much(state.notion, max(free, 0.0))),
            asked=hold.amount, available=max(free, 0.0),
        )
    return replace(state, holds=(*others, hold))


def _release(state: BinState, part: Mapping[str, Any]) -> BinState:
    kept = tuple(h for h in state.holds if h.plan != part["plan"])
    if len(kept) == len(state.holds):
        raise Conflict("plan_holds_none_of_bin", plan=part['plan'])
    return replace(state, holds=kept)


def _leave(why: str) -> Callable[[BinState, Mapping[str, Any]], BinState]:
    def step(state: BinState, part: Mapping[str, Any]) -> BinState:
        if state.holds and not part.get("despite_hold"):
            plans = tuple(h.plan for h in state.holds)
            raise Held(fact("bin_held_in_part", plans=plans), plans=plans)
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
