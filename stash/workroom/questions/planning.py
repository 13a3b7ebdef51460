"""Plans: garments meant to be made, and the cloth and notions they hold meanwhile."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from stash.errors import Conflict, InvalidInput
from stash.fact import Fact, fact
from stash.ledger import CutHold, Event
from stash.match.fit.companion_cut import roles_beside
from stash.match.notions.allocation import promised
from stash.match.notions.supplies import supplies
from stash.match.notions.wanted import Line
from stash.model import Laid, Plan
from stash.store import Stash
from stash.store.naming import key_of
from stash.workroom.answer_lays import LaysTaken, chosen
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.fitting import Asking, FitAnswer, ask_fit, stock_for
from stash.workroom.questions.orders import orders_for, planned_orders
from stash.workroom.questions.plan_view import PlanView, show_plan
from stash.workroom.settings import habits


def add_plan(
    stash: Stash, name: str, garments: Sequence[str], people: Sequence[str],
    options: Mapping[str, object], token: str | None = None,
) -> PlanView:
    """Record a plan, or add garments to one; each is drafted once, so that it can be made.

    Conflict when the plan was made already.
    """
    if not name.strip():
        raise InvalidInput("name_the_plan", field="name")
    known = known_plan(stash, name)
    if known:
        _refuse_made(known)
    orders = orders_for(stash, garments, people, options)
    planned = tuple(order.drafted().planned for order in orders)
    plan = replace(known, garments=(*known.garments, *planned)) if known else Plan(
        name=name, garments=planned
    )
    stash.plans.save(plan, token)
    return show_plan(stash, name)


def known_plan(stash: Stash, name: str) -> Plan | None:
    """The plan of this name as people mean it: case, accents and spacing make no difference."""
    return next((p for p in stash.plans.all() if key_of(p.name) == key_of(name)), None)


def hold_plan(
    stash: Stash, name: str, cut: str | None = None, asking: Asking | None = None,
    token: str | None = None,
) -> tuple[PlanView, FitAnswer]:
    """Hold the lay of the whole plan on one cut, and its notions in the bins.

    Without a cut the best one is taken. Conflict says why a plan does not come out, or that
    it was made.
    """
    plan = stash.plans.get(name)
    _refuse_made(plan)
    orders = planned_orders(stash, plan)
    if not orders:
        raise Conflict("plan_has_no_garments", plan=plan.name)
    asking = replace(asking or Asking(), only_cut=cut, giving_up=(name,))
    answer = ask_fit(stash, orders, asking)
    if not answer.fit.fits:
        raise Conflict(_why_not(plan, answer, cut))
    found = chosen(answer, answer.fit.fits[0].cut.code)
    with stash.act(token):
        _hold(stash, plan.name, found.lays, answer.notions)
    return show_plan(stash, name), answer


def hold_lay(
    stash: Stash, name: str, answer: FitAnswer | MakingAnswer, which: str, asking: Asking,
    token: str | None = None,
) -> tuple[PlanView, Event]:
    """Hold one lay of an answer, with what goes with it, for a plan of this name.

    The plan is then as it was asked for; what it held for an earlier answer is given up.
    NotFound when the answer has no lay of that name.
    """
    if not name.strip():
        raise InvalidInput("name_the_plan", field="plan")
    found = chosen(answer, which)
    if before := known_plan(stash, name):
        _refuse_made(before)
    giving_up = (name,) if before else ()
    lays, lines = _with_company(stash, found, answer, replace(asking, giving_up=giving_up))
    with stash.act(token) as act:
        planned = tuple(garment.planned for garment in found.garments)
        known = known_plan(stash, name)
        if known is None or known.garments != planned:
            stash.plans.save(replace(known or Plan(name=name), garments=planned))
        _hold(stash, name, lays, lines)
    return show_plan(stash, name), act.became


def _refuse_made(plan: Plan) -> None:
    """What a plan held that was made already would never leave the stash."""
    if plan.made:
        raise Conflict("made_plan_holds_nothing", plan=plan.name, day=plan.made)


def _with_company(
    stash: Stash, found: LaysTaken, answer: FitAnswer | MakingAnswer, asking: Asking
) -> tuple[tuple[Laid, ...], Sequence[Line]]:
    """The lays with the other cloth they want, and the notions as they go with the cloth."""
    if found.whole:
        return found.lays, answer.notions
    free, main = stock_for(stash, asking), found.lays[0].cut
    elsewhere = {laid.cut.code for laid in found.lays}
    others = [cut for cut in free.cuts if cut.code not in elsewhere]
    roles = roles_beside(found.garments, main, others, habits(stash))
    beside = tuple(line.laid for line in roles if line.laid)
    return (*found.lays, *beside), supplies(found.garments, free.bins, main)


def _hold(stash: Stash, name: str, lays: Sequence[Laid], lines: Sequence[Line]) -> None:
    """Give up what the plan held, and hold these lays and notions."""
    holdings = stash.plans.holdings(name)
    if holdings.cuts or holdings.bins:
        stash.plans.release(name)
    held = {laid.cut.code: held_stretch(laid, name) for laid in lays}
    bins = {code: amount for code, amount in promised(lines).items() if amount > 0}
    stash.plans.hold(name, held, bins)


def held_stretch(laid: Laid, plan: str) -> CutHold:
    """The stretch of the cut, as it lies now, that a lay takes; the lay is kept with it."""
    return CutHold(
        plan=plan, from_mm=laid.cut.outline.bounds_mm[0], to_mm=laid.to_mm, laid=laid
    )


def _why_not(plan: Plan, answer: FitAnswer, cut: str | None) -> Fact:
    nearest = next(iter(answer.fit.candidates), None)
    if cut and answer.fit.set_aside:
        aside = answer.fit.set_aside[0]
        return fact("plan_not_from_cut", plan=plan.name, cut=aside.cut.code,
                    because=aside.suitability.hard[0])
    if nearest is None:
        return fact("plan_from_no_cut", plan=plan.name)
    return fact("plan_not_from_cut", plan=plan.name, cut=nearest.cut.code,
                because=nearest.verdict.told)
