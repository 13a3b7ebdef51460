"""A plan with what it holds, read from the record: nothing is laid or drafted to be shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from stash.model import Laid, NotionKind, Plan
from stash.store import Stash
from stash.store.plans import Holdings
from stash.workroom.questions.held import held_laid


@dataclass(frozen=True, kw_only=True)
class PlanView:
    """A plan and what it holds now, by code.

    ``lays`` are the held lays on their cuts, ``kinds`` what the held bins are of.
    """

    plan: Plan
    holdings: Holdings
    lays: Mapping[str, Laid]
    kinds: Mapping[str, NotionKind]


def show_plan(stash: Stash, name: str) -> PlanView:
    """A plan with what it holds."""
    holdings = stash.plans.holdings(name)
    lays = {
        code: laid for code, hold in holdings.cuts.items()
        if (laid := held_laid(hold, stash.cuts.card(code).cut))
    }
    kinds = {code: stash.bins.get(code).notion.kind for code in holdings.bins}
    return PlanView(plan=stash.plans.get(name), holdings=holdings, lays=lays, kinds=kinds)
