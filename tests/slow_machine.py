"""A slow machine and a faltering network, on purpose: what does not wait is then seen to fail.

``SLOW=1 pytest tests/browser`` answers each request early or late by chance, works the pages'
scripts on a sixth of the processor, and gives a search a fraction of its time. The number is the
seed: the same one delays the same requests alike, another one others.
"""

from __future__ import annotations

import os
import time
from collections import Counter
from collections.abc import Callable
from random import Random
from typing import Any

from flask import Flask

from stash.deadline import Deadline

SEED = os.environ.get("SLOW", "")
LONGEST_S = 0.7
PROCESSOR = 6
SEARCH = 4


def late(app: Callable[..., Any]) -> Callable[..., Any]:
    """A WSGI app whose answers come late, now before the work is done and now after it.

    Few are very late and many a little, so that one overtakes another.
    """
    asked: Counter[str] = Counter()

    def answer(environ: dict[str, Any], start: Any) -> Any:
        what = "{REQUEST_METHOD} {PATH_INFO}".format_map(environ)
        asked[what] += 1
        chance = Random(f"{SEED} {what} {asked[what]}")
        before, after = (LONGEST_S / 2 * chance.random() ** 2 for _ in range(2))
        time.sleep(before)
        parts = app(environ, start)
        time.sleep(after)
        return parts

    return answer


def slowed(patch: Any) -> None:
    """Every app of this process answers late, and every search ends early; ``patch`` undoes it."""
    patch.setattr(Flask, "wsgi_app", _each_late(Flask.wsgi_app))
    after = Deadline.after.__func__
    patch.setattr(Deadline, "after", classmethod(lambda cls, s: after(cls, s / SEARCH)))


def _each_late(own: Callable[..., Any]) -> Callable[..., Any]:
    def wsgi_app(app: Flask, environ: dict[str, Any], start: Any) -> Any:
        delayed = app.extensions.setdefault("late", late(lambda *told: own(app, *told)))
        return delayed(environ, start)

    return wsgi_app


def on_little_of_the_processor(page: Any) -> None:
    """The scripts of this page take so many times as long."""
    page.context.new_cdp_session(page).send(
        "Emulation.setCPUThrottlingRate", {"rate": PROCESSOR})
