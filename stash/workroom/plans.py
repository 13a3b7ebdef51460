"""Plans: garments meant to be made, the lays and notions held for them, until they are sewn."""

from __future__ import annotations

from stash.errors import NotFound
from stash.ledger import Event
from stash.model import Laid, Plan
from stash.store import Stash
from stash.workroom.questions.plan_view import PlanView, show_plan

__all__ = [
    "PlanView", "held_lay", "made", "names", "release", "remove", "show_plan", "unmade", "views",
]


def names(stash: Stash) -> list[str]:
    """Every plan by its name."""
    return [plan.name for plan in stash.plans.all()]


def unmade(stash: Stash) -> list[str]:
    """The plans that something may still be taken for."""
    return [plan.name for plan in stash.plans.all() if not plan.made]


def views(stash: Stash) -> list[PlanView]:
    """Every plan with what it holds."""
    return [show_plan(stash, name) for name in names(stash)]


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


def held_lay(stash: Stash, name: str, code: str) -> Laid:
    """The lay a plan holds on one cut; NotFound when there is none that can be drawn."""
    laid = show_plan(stash, name).lays.get(code)
    if laid is None:
        raise NotFound("no_lay_held", plan=name, code=code)
    return laid
