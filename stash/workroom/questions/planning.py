"""Plans: garments meant to be made, and the cloth and notions they hold meanwhile."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stash.errors import Conflict, InvalidInput
from stash.ledger import CutHold
from stash.match.fit.answers import Candidate
from stash.match.notions.allocation import promised
from stash.model import Cut, Lay, Piece, Plan
from stash.model.plan import PlannedGarment
from stash.model.wire import lay_json, piece_json
from stash.store import Stash
from stash.store.plans import Holdings
from stash.workroom.questions.fitting import Asking, FitAnswer, ask_fit
from stash.workroom.questions.orders import orders_for, planned_orders


@dataclass(frozen=True, kw_only=True)
class PlanView:
    """A plan and what it holds now."""

    plan: Plan
    holdings: Holdings

    def to_json(self) -> dict:
        """``{"name", "garments", "holds": {"cuts", "bins"}}``."""
        return {
            "name": self.plan.name,
            "notes": self.plan.notes,
            "made": self.plan.made,
            "garments": [
                {"garment": g.garment, "person": g.person, "options": dict(g.options)}
                for g in self.plan.garments
            ],
            "holds": {
                "cuts": [
                    {"cut": code, "from_mm": hold.from_mm, "to_mm": hold.to_mm, "lay": hold.lay}
                    for code, hold in self.holdings.cuts.items()
                ],
                "bins": [
                    {"bin": code, "amount": hold.amount}
                    for code, hold in self.holdings.bins.items()
                ],
            },
        }


def add_plan(
    stash: Stash, name: str, garments: Sequence[str], people: Sequence[str],
    options: Mapping[str, object], token: str | None = None,
) -> PlanView:
    """Record a plan, or add garments to one; each is drafted once, so that it can be made."""
    if not name.strip():
        raise InvalidInput("Please give the plan a name.", field="name")
    orders = orders_for(stash, garments, people, options)
    for order in orders:
        order.drafted()
    planned = tuple(
        PlannedGarment(garment=o.garment, person=o.person, options=dict(o.options))
        for o in orders
    )
    known = next((p for p in stash.plans.all() if _same(p.name, name)), None)
    plan = replace(known, garments=(*known.garments, *planned)) if known else Plan(
        name=name, garments=planned
    )
    stash.plans.save(plan, token)
    return show_plan(stash, name)


def show_plan(stash: Stash, name: str) -> PlanView:
    """A plan with what it holds."""
    return PlanView(plan=stash.plans.get(name), holdings=stash.plans.holdings(name))


def hold_plan(
    stash: Stash, name: str, cut: str | None = None, asking: Asking | None = None,
    token: str | None = None,
) -> tuple[PlanView, FitAnswer]:
    """Hold the lay of the whole plan on one cut, and its notions in the bins.

    Without a cut the best one is taken. Conflict says why a plan does not come out.
    """
    plan = stash.plans.get(name)
    orders = planned_orders(stash, plan)
    if not orders:
        raise Conflict(f"The plan “{plan.name}” has no garments yet.")
    asking = replace(asking or Asking(), only_cut=cut, giving_up=(name,))
    answer = ask_fit(stash, orders, asking)
    if not answer.fit.fits:
        raise Conflict(_why_not(plan, answer, cut))
    best = answer.fit.fits[0]
    held = {best.cut.code: held_stretch(best.cut, best.lay, plan.name, answer.fit.pieces)}
    held |= {
        c.cut.code: held_stretch(c.cut, c.lay, plan.name, c.pieces)
        for c in answer.fit.companions if c.cut and c.lay
    }
    bins = {code: amount for code, amount in promised(answer.fit.notions).items() if amount > 0}
    with stash.act(token):
        if stash.plans.holdings(name).cuts or stash.plans.holdings(name).bins:
            stash.plans.release(name)
        stash.plans.hold(name, held, bins)
    return show_plan(stash, name), answer


def held_stretch(
    cut: Cut, lay: Lay, plan: str, pieces: Sequence[Piece] = ()
) -> CutHold:
    """The stretch of the cut, as it lies now, that a lay of the washed cloth takes.

    The pieces are kept with the lay, so that it can be cut even after a draft has changed.
    """
    shrink = 0.0 if cut.washed else cut.cloth.shrink_along_pct / 100
    left, _, right, _ = cut.outline.bounds_mm
    end = min(lay.length_mm / (1 - shrink), right)
    kept = {**lay_json(lay), "pieces": [piece_json(piece) for piece in pieces]}
    return CutHold(plan=plan, from_mm=left, to_mm=end, lay=kept)


def _why_not(plan: Plan, answer: FitAnswer, cut: str | None) -> str:
    nearest: Candidate | None = next(iter(answer.fit.candidates), None)
    if cut and answer.fit.set_aside:
        return f"The plan “{plan.name}” cannot come out of {cut}: {answer.fit.set_aside[0].reason}"
    if nearest is None:
        return f"There is no free cloth that suits the plan “{plan.name}”."
    return f"The plan “{plan.name}” does not come out of {nearest.cut.code}: {nearest.reason}"


def _same(first: str, second: str) -> bool:
    return " ".join(first.casefold().split()) == " ".join(second.casefold().split())
