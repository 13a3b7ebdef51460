"""A search begins with its tools at hand: its seconds are for searching."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stash.workroom.ready import is_warm, warm
from web.jobs import Job


def warmed(work: Callable[[Job], Any]) -> Callable[[Job], Any]:
    """``work``, begun once the kernels are compiled; the person reads what takes so long."""
    def begun(job: Job) -> Any:
        if not is_warm():
            warm(job.awaits)
            job.awaits(None)
        return work(job)

    return begun
