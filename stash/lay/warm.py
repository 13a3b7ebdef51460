"""Compile the kernels before anyone waits for them."""

from __future__ import annotations

import threading

from stash.lay.proof.screen import screen
from stash.lay.solve import shortest
from stash.lay.task import Budget, LayTask
from stash.model import Outline, Piece

_compiled = threading.Event()


def is_warm() -> bool:
    """True once this process has its kernels."""
    return _compiled.is_set()


def warm() -> None:
    """Lay a small task once, so that every kernel is compiled and cached.

    Meant for a background thread at the start of the app, and before the clock of a search
    starts: up to a minute the first time on a machine, about a second in a new process after
    that, nothing in one that is warm.
    """
    if is_warm():
        return
    triangle = Piece(name="triangle", outline_mm=((0, 0), (90, 0), (0, 60)), quantity=4)
    screen(LayTask(pieces=(triangle,), cloth=Outline.rectangle(400.0, 100.0)))
    shortest(LayTask(pieces=(triangle,), width_mm=100.0), Budget(iterations=40))
    _compiled.set()
