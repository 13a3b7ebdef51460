"""What has changed under a plan since it was held: its bins, and what its lays were drawn from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from stash.draft.body import term
from stash.fact import Fact, fact
from stash.ledger.bins import BinHold, so_much
from stash.ledger.event import parts_of
from stash.model import Bin, Person, PlannedGarment
from stash.store import Stash
from stash.workroom.drafts import is_draft
from stash.workroom.questions.plan_view import PlanView

SAME_MM = 0.05


def short_of(held: Bin, holds: Iterable[BinHold]) -> tuple[Fact, ...]:
    """What is said of each plan that was promised more than the bin holds since it was counted."""
    return tuple(
        fact("hold_is_short" if held.amount else "hold_is_empty", plan=hold.plan,
             held=so_much(held.notion, hold.amount), there=so_much(held.notion, held.amount))
        for hold in holds if held.amount < hold.amount)


def short_bins(stash: Stash, view: PlanView) -> Mapping[str, tuple[Fact, ...]]:
    """The same of all bins that a plan holds something of, by code."""
    return {code: short_of(stash.bins.get(code), (hold,))
            for code, hold in view.holdings.bins.items()}


def drawn_since(stash: Stash, view: PlanView) -> tuple[Fact, ...]:
    """What the plan's lays were drawn from and is otherwise now: bodies, and her own patterns."""
    laid = min((number for code in view.lays for number in _held_by(stash, code, view)), default=0)
    if not laid:
        return ()
    bodies = {garment.person: garment for garment in view.plan.garments if garment.person}
    said = [_changed(stash, garment, laid, view.plan.name) for garment in bodies.values()]
    patterns = dict.fromkeys(garment.garment for garment in view.plan.garments)
    said += [_altered(stash, name, laid, view.plan.name) for name in patterns]
    return tuple(one for one in said if one)


def _held_by(stash: Stash, code: str, view: PlanView) -> Iterator[int]:
    """The number of the event that holds the cut as it is held now."""
    plan = view.holdings.cuts[code].plan
    for event in stash.ledger.history(code):
        steps = parts_of(event.change.get(code, {}))
        if event.stands and any("laid" in step and step.get("plan") == plan for step in steps):
            yield event.id
            return


def _changed(stash: Stash, garment: PlannedGarment, laid: int, plan: str) -> Fact | None:
    name = garment.person or ""
    then, now = stash.people.as_of(name, laid), stash.people.as_of(name)
    if then is None or now is None:
        return None
    changes = [
        fact("measure_changed", measure=term(name),
             change_signed_mm=mm - then.measurements_mm[name])
        for name, mm in now.measurements_mm.items()
        if name in then.measurements_mm and abs(mm - then.measurements_mm[name]) > SAME_MM
    ]
    if changes:
        return fact("measured_since_held", plan=plan, person=now.name, changes=tuple(changes))
    if _fit(then, garment) != _fit(now, garment):
        return fact("fitted_since_held", plan=plan, person=now.name)
    return None


def _altered(stash: Stash, name: str, laid: int, plan: str) -> Fact | None:
    if is_draft(name) or stash.patterns.newest_event(name) <= laid:
        return None
    return fact("pattern_since_held", plan=plan, pattern=name)


def _fit(person: Person, garment: PlannedGarment) -> Mapping[str, float]:
    return dict(person.adjustments_mm.get(garment.garment, {}))
