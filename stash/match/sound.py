"""Only sound lays reach a person: one that fails the independent check is searched for again."""

from __future__ import annotations

import logging
from collections.abc import Callable
from dataclasses import replace

from stash.lay import Answer, Budget, LayTask, Verdict
from stash.lay.solve import UnsoundLay

TRIES = 3
log = logging.getLogger(__name__)


def sound(search: Callable[[LayTask, Budget], Answer], task: LayTask, budget: Budget) -> Answer:
    """``search`` with other seeds until its lay passes; NOT_FOUND when none does.

    A fault of the engine is written to the log, and never shown as an answer.
    """
    for again in range(TRIES):
        try:
            return search(task, replace(budget, seed=budget.seed + again))
        except UnsoundLay as fault:
            log.error("a lay failed its check and was thrown away: %s", fault)
    return Answer(
        verdict=Verdict.NOT_FOUND, reason="No lay passed its check; please try other options."
    )
