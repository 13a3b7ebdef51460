"""Long work in the background: it reports how far it is, and it can be stopped."""

from __future__ import annotations

import logging
import secrets
import threading
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from stash.errors import StashError

KEPT = 40
AT_ONCE = 2


class State(StrEnum):
    """How a job stands."""

    WAITING = "waiting"
    WORKING = "working"
    DONE = "done"
    FAILED = "failed"


@dataclass
class Job:
    """One piece of work: its title, how far it is, and in the end its result.

    ``done`` of ``total`` are steps; ``found`` may be filled while the work goes on.
    """

    title: str
    question: Any = None
    key: str = field(default_factory=lambda: secrets.token_urlsafe(9))
    state: State = State.WAITING
    done: int = 0
    total: int = 0
    note: str = ""
    found: Any = None
    result: Any = None
    error: StashError | None = None
    _stop: threading.Event = field(default_factory=threading.Event)

    @property
    def over(self) -> bool:
        """True when nothing more will change."""
        return self.state in (State.DONE, State.FAILED)

    @property
    def stopped(self) -> bool:
        """True once the person asked for it to stop."""
        return self._stop.is_set()

    def stop(self) -> None:
        """Ask the work to end with the best it has."""
        self._stop.set()

    def should_stop(self) -> bool:
        """The stop rule handed to the work."""
        return self._stop.is_set()

    def step(self, done: int, total: int, note: str = "") -> None:
        """Say how far the work is."""
        self.done, self.total, self.note = done, total, note


class Jobs:
    """The jobs of this process, newest last; the oldest finished ones are forgotten."""

    def __init__(self) -> None:
        self._jobs: OrderedDict[str, Job] = OrderedDict()
        self._lock = threading.Lock()
        self._pool = ThreadPoolExecutor(AT_ONCE, thread_name_prefix="job")

    def start(self, job: Job, work: Callable[[Job], Any]) -> Job:
        """Run ``work(job)`` in the background; what it returns becomes the result."""
        with self._lock:
            self._jobs[job.key] = job
            for key in [k for k, j in self._jobs.items() if j.over][: -KEPT or None]:
                del self._jobs[key]
        self._pool.submit(_run, job, work)
        return job

    def close(self) -> None:
        """Ask everything to stop, and begin nothing more."""
        for job in list(self._jobs.values()):
            job.stop()
        self._pool.shutdown(wait=False, cancel_futures=True)

    def get(self, key: str) -> Job | None:
        """The job, or None when it is no longer kept."""
        return self._jobs.get(key)


def _run(job: Job, work: Callable[[Job], Any]) -> None:
    job.state = State.WORKING
    try:
        job.result = work(job)
        job.state = State.DONE
    except StashError as error:
        job.error, job.state = error, State.FAILED
    except Exception:
        logging.getLogger("web.jobs").exception("job %s failed", job.title)
        job.error, job.state = StashError("computation_failed"), State.FAILED
