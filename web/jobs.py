"""Long work in the background: it waits its turn, says how far it is, and can be stopped."""

from __future__ import annotations

import copy
import logging
import secrets
import threading
import time
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from flask import Flask, current_app

from stash.errors import Conflict, NotFound, StashError
from stash.fact import Fact
from stash.sentences import Reader, say

KEPT = 40
AT_ONCE = 2
MOST_WAITING = 8


class State(StrEnum):
    """How a job stands."""

    WAITING = "waiting"
    WORKING = "working"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"


@dataclass
class Job:
    """One piece of work: what was asked, how far it is, and in the end its result.

    ``answered_at`` is the endpoint of the page that shows it. ``done`` of ``total`` are
    steps; ``found`` may be filled while the work goes on; ``awaited`` is what it cannot begin
    without. ``since_s`` is when it last changed from waiting to working, on a clock that only
    runs forward. ``about`` says the title in the language of whoever reads it.
    """

    title: str
    question: Any = None
    answered_at: str = ""
    key: str = field(default_factory=lambda: secrets.token_urlsafe(9))
    state: State = State.WAITING
    since_s: float = field(default_factory=time.monotonic)
    done: int = 0
    total: int = 0
    awaited: Fact | None = None
    found: Any = None
    result: Any = None
    error: StashError | None = None
    about: Fact | None = None
    _stop: threading.Event = field(default_factory=threading.Event)

    def titled(self, reader: Reader) -> str:
        """What was asked, in the reader's language, with a capital."""
        said = say(self.about, reader) if self.about else self.title
        return said[:1].upper() + said[1:]

    @property
    def over(self) -> bool:
        """True when nothing more will change."""
        return self.state in (State.DONE, State.FAILED, State.CANCELLED)

    @property
    def stopped(self) -> bool:
        """True once the person asked for it to stop."""
        return self._stop.is_set()

    @property
    def seconds(self) -> int:
        """How long it has waited for its turn, or worked since."""
        return round(time.monotonic() - self.since_s)

    def stop(self) -> None:
        """Ask the work to end with the best it has."""
        self._stop.set()

    def should_stop(self) -> bool:
        """The stop rule handed to the work."""
        return self._stop.is_set()

    def step(self, done: int, total: int) -> None:
        """Say how far the work is."""
        self.done, self.total = done, total

    def awaits(self, what: Fact | None) -> None:
        """Say what has to be there before the work begins; None when it is."""
        self.awaited = what


class Jobs:
    """The jobs of this process, newest last; the oldest finished ones are forgotten."""

    def __init__(self) -> None:
        self._jobs: OrderedDict[str, Job] = OrderedDict()
        self._turns: dict[str, Future[None]] = {}
        self._lock = threading.Lock()
        self._pool = ThreadPoolExecutor(AT_ONCE, thread_name_prefix="job")

    def start(self, job: Job, work: Callable[[Job], Any]) -> Job:
        """Run ``work(job)`` in its turn; what it returns becomes the result.

        Raises Conflict when too many wait already.
        """
        with self._lock:
            waiting = sum(j.state is State.WAITING for j in self._jobs.values())
            if waiting >= MOST_WAITING:
                raise Conflict("too_many_waiting", count=waiting)
            for key in [k for k, j in self._jobs.items() if j.over][: -KEPT or None]:
                del self._jobs[key]
                self._turns.pop(key, None)
            self._jobs[job.key] = job
            self._turns[job.key] = self._pool.submit(_run, job, work)
        return job

    def stop(self, job: Job) -> None:
        """End it with the best it has; one whose turn has not come is not begun at all."""
        job.stop()
        if self._turns[job.key].cancel():
            self._jobs[job.key].state = State.CANCELLED

    def place(self, job: Job) -> int:
        """Its place among those that wait, the next one being 1; 0 once it has begun."""
        waiting = [key for key, j in list(self._jobs.items()) if j.state is State.WAITING]
        return waiting.index(job.key) + 1 if job.key in waiting else 0

    def close(self, *, wait: bool = False) -> None:
        """Ask everything to stop, and begin nothing more; come back, if asked to, when all has."""
        for job in list(self._jobs.values()):
            job.stop()
        self._pool.shutdown(wait=wait, cancel_futures=True)

    def done(self, question: type) -> list[Job]:
        """Those that answered such a question, and are still kept."""
        return [job for job in list(self._jobs.values())
                if isinstance(job.question, question) and job.result is not None]

    def newest(self, question: type) -> Job | None:
        """The last that was asked such a question, however it stands."""
        asked = [job for job in list(self._jobs.values()) if isinstance(job.question, question)]
        return asked[-1] if asked else None

    def get(self, key: str) -> Job | None:
        """The job, or None when it is no longer kept."""
        return self._jobs.get(key)


def install(app: Flask) -> None:
    """Give the app its queue, and the waiting page a place in it."""
    app.extensions["jobs"] = Jobs()
    app.jinja_env.globals["place_of"] = app.extensions["jobs"].place


def jobs() -> Jobs:
    """The jobs of this app."""
    running: Jobs = current_app.extensions["jobs"]
    return running


def kept(key: str, question: type | None = None) -> Job:
    """A job that is still kept, on a question of this kind; NotFound says to ask again.

    It is the job as it stands now: work that ends while a page is drawn would otherwise be
    called over beside what was found before its end, and such a page never asks again.
    """
    job = jobs().get(key)
    if job is None or (question and not isinstance(job.question, question)):
        raise NotFound("answer_not_kept")
    return copy.copy(job)


def ended(key: str, title: str, question: Any, result: Any) -> Job:
    """The work of an earlier run of the app, whose answer was kept."""
    return Job(title=title, question=question, key=key, state=State.DONE, result=result)


def _run(job: Job, work: Callable[[Job], Any]) -> None:
    job.state, job.since_s = State.WORKING, time.monotonic()
    try:
        job.result = work(job)
        job.state = State.DONE
    except StashError as error:
        job.error, job.state = error, State.FAILED
    except Exception:
        logging.getLogger("web.jobs").exception("job %s failed", job.title)
        job.error, job.state = StashError("computation_failed"), State.FAILED
