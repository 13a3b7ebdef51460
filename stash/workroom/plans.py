"""Plans: kept, held for, cut, made, given up."""

from __future__ import annotations

from stash.model import Plan
from stash.store import Stash


def everything(stash: Stash) -> list[Plan]:
    """Every plan, by name."""
    return stash.plans.all()
