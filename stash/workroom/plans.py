"""Plans: garments meant to be made, the lays and notions held for them, until they are sewn."""

from __future__ import annotations

from dataclasses import replace

from stash.errors import NotFound
from stash.ledger import Event
from stash.match.gather import gather
from stash.match.notions.allocation import promised
from stash.match.notions.supplies import supplies
from stash.match.order import Order
from stash.model import Lay, Piece, Plan
from stash.model.exact import from_plain
from stash.model.plan import PlannedGarment
from stash.store import Stash
from stash.store.naming import key_of
from stash.workroom.answer_lays import AnswerLay, Chosen, chosen
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.fitting import FitAnswer
from stash.workroom.questions.free_stock import free_stash
from stash.workroom.questions.orders import planned_orders
from stash.workroom.questions.planning import PlanView, held_stretch, show_plan
from stash.workroom.settings import units


def names(stash: Stash) -> list[str]:
    """Every plan by its name."""
    return [plan.name for plan in stash.plans.all()]


def views(stash: Stash) -> list[PlanView]:
    """Every plan with what it holds."""
    return [show_plan(stash, name) for name in names(stash)]


def hold_answer(
    stash: Stash, name: str, answer: FitAnswer | MakingAnswer, orders: tuple[Order, ...],
    which: str, token: str | None = None,
) -> tuple[Event, tuple[AnswerLay, ...]]:
    """Hold one lay of an answer, with its notions, for a plan of this name.

    The plan is made when there is none, and asked anew when its garments differ; what it
    held for an earlier answer is given up. "all" holds every lay of an answer.
    """
    choice = chosen(answer, orders, which)
    garments = tuple(
        PlannedGarment(garment=o.garment, person=o.person, options=dict(o.options))
        for o in choice.orders)
    with stash.act(token):
        _ask_anew(stash, name, garments)
        event = stash.plans.hold(
            name,
            {one.cut.code: held_stretch(one.cut, one.lay, name, one.pieces)
             for one in choice.lays},
            _notions(stash, answer, choice, name))
    return event, choice.lays


def _ask_anew(stash: Stash, name: str, garments: tuple[PlannedGarment, ...]) -> None:
    known = next((p for p in stash.plans.all() if key_of(p.name) == key_of(name)), None)
    if known is None or known.garments != garments:
        stash.plans.save(replace(known or Plan(name=name), garments=garments))
    holdings = stash.plans.holdings(name)
    if holdings.cuts or holdings.bins:
        stash.plans.release(name)


def _notions(
    stash: Stash, answer: FitAnswer | MakingAnswer, choice: Chosen, name: str
) -> dict[str, float]:
    """What the bins give: as answered, or as it goes with the cloth that was chosen."""
    if isinstance(answer, MakingAnswer):
        lines = answer.notions
    else:
        bins = free_stash(stash, giving_up=(name,)).bins
        drafted = tuple(order.drafted() for order in choice.orders)
        lines = supplies(drafted, bins, choice.lays[0].cut, units(stash))
    return {code: amount for code, amount in promised(lines).items() if amount > 0}


def made(stash: Stash, name: str, token: str | None = None) -> tuple[Event, PlanView]:
    """The garments are sewn: the notions held for them have left their bins."""
    event = stash.plans.made(name, token)
    return event, show_plan(stash, name)


def release(
    stash: Stash, name: str, code: str | None = None, token: str | None = None
) -> tuple[Event, PlanView]:
    """Give up what the plan holds, all of it or one cut or bin."""
    event = stash.plans.release(name, token, code)
    return event, show_plan(stash, name)


def remove(stash: Stash, name: str, token: str | None = None) -> tuple[Event, Plan]:
    """Give the plan up altogether; what it held is free."""
    plan = stash.plans.get(name)
    return stash.plans.remove(name, token), plan


def held_lays(stash: Stash, name: str) -> dict[str, AnswerLay]:
    """The lays a plan holds that can be drawn, by the code of their cut."""
    view = show_plan(stash, name)
    lays = {code: _held_lay(stash, view, code) for code in view.holdings.cuts}
    return {code: lay for code, lay in lays.items() if lay is not None}


def held_lay(stash: Stash, name: str, code: str) -> AnswerLay:
    """The lay a plan holds on one cut; NotFound when there is none that can be drawn."""
    lay = _held_lay(stash, show_plan(stash, name), code)
    if lay is None:
        raise NotFound("no_lay_held", plan=name, code=code)
    return lay


def _held_lay(stash: Stash, view: PlanView, code: str) -> AnswerLay | None:
    """The lay as it was held, with the pieces that were kept beside it."""
    held = view.holdings.cuts.get(code)
    if held is None or not held.lay:
        return None
    pieces = tuple(from_plain(Piece, piece) for piece in held.lay.get("pieces", ()))
    if not pieces:
        pieces = gather([order.drafted() for order in planned_orders(stash, view.plan)])
    lay = from_plain(Lay, held.lay)
    if not {p.piece.rpartition("#")[0] for p in lay.placements} <= {p.name for p in pieces}:
        return None
    cut = stash.cuts.card(code).cut
    return AnswerLay(
        key=code, title=f"{cut.cloth.name} {code}", cut=cut, pieces=pieces, lay=lay)
