"""Why there is as much of a cut as there is: what each happening added and took."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stash.errors import StashError
from stash.ledger.bins import BinState
from stash.ledger.cuts import CutState
from stash.ledger.event import Event, Kind
from stash.ledger.fold import FoldedState, applied, standing
from stash.ledger.shapes import SLACK_MM

AREA_SLACK_MM2 = 1.0


@dataclass(frozen=True, kw_only=True)
class Step:
    """One happening: the length and the area it added, or took where they are negative.

    The lengths of all steps add up to what is left; so do the areas.
    """

    event: Event
    length_mm: float
    area_mm2: float


def explained(events: Iterable[Event], code: str) -> tuple[Step, ...]:
    """What changed how much there is of this cut, oldest first; undone events are left out."""
    steps: list[Step] = []
    state: FoldedState | None = None
    length = area = 0.0
    for event in standing(events):
        if not event.stands or event.kind is Kind.UNDO or code not in event.change:
            continue
        state = applied(state, event, code)
        assert isinstance(state, CutState)
        now, cloth = (0.0, 0.0) if state.gone else (
            state.outline.length_mm, state.outline.area_mm2)
        if abs(now - length) > SLACK_MM or abs(cloth - area) > AREA_SLACK_MM2:
            steps.append(Step(event=event, length_mm=now - length, area_mm2=cloth - area))
        length, area = now, cloth
    return tuple(steps)


@dataclass(frozen=True, kw_only=True)
class BinStep:
    """One happening: how much it added to a bin, or took where it is negative; they add up."""

    event: Event
    amount: float


def explained_bin(events: Iterable[Event], code: str) -> tuple[BinStep, ...]:
    """What changed how much is in this bin, oldest first; undone events are left out."""
    steps: list[BinStep] = []
    state: FoldedState | None = None
    before = 0.0
    for event in standing(events):
        if not event.stands or event.kind is Kind.UNDO or code not in event.change:
            continue
        state = applied(state, event, code)
        assert isinstance(state, BinState)
        now = 0.0 if state.gone else state.amount
        if abs(now - before) > 1e-9:
            steps.append(BinStep(event=event, amount=now - before))
        before = now
    return tuple(steps)


def dependent(events: Iterable[Event], target: Event, subject: str) -> Event | None:
    """The first later event that cannot stand once ``target`` does not; None when all can."""
    state: FoldedState | None = None
    for event in standing(events):
        if not event.stands or event.kind is Kind.UNDO or event.id == target.id:
            continue
        try:
            state = applied(state, event, subject)
        except StashError:
            return event
    return None
