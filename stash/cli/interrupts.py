"""Ctrl-C is heard within a second, whatever a command is doing.

Python hears it only between two of its own steps, and a search may work in native code or
wait for its helpers for long. So a thread listens too: it gives the command a moment to end by
itself, then ends it. Every change is one transaction, so nothing is left half recorded.
"""

from __future__ import annotations

import os
import signal
import socket
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from types import FrameType

GRACE_S = 0.6
INTERRUPTED = 130
"""The exit status of a command that was interrupted, as shells know it."""


@contextmanager
def heard_at_once() -> Iterator[None]:
    """Inside, an interrupt ends the command within a second."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    here, there = socket.socketpair()
    there.setblocking(False)
    before = signal.set_wakeup_fd(there.fileno(), warn_on_full_buffer=False)
    over, heard = threading.Event(), threading.Event()

    def interrupted(number: int, frame: FrameType | None) -> None:
        heard.set()
        signal.default_int_handler(number, frame)

    hook, sys.unraisablehook = sys.unraisablehook, _quiet
    usual = signal.signal(signal.SIGINT, interrupted)
    threading.Thread(target=_listen, args=(here, over), name="interrupts", daemon=True).start()
    try:
        yield
    finally:
        over.set()
        if heard.is_set():  # what helpers and native code would still do is not waited for
            _end()
        signal.signal(signal.SIGINT, usual)
        sys.unraisablehook = hook
        signal.set_wakeup_fd(before)
        there.close()


def _quiet(told: sys.UnraisableHookArgs) -> None:
    """An interrupt that falls into a call back from native code is lost there; not told twice."""
    if told.exc_type is not KeyboardInterrupt:
        sys.__unraisablehook__(told)


def _listen(signals: socket.socket, over: threading.Event) -> None:
    with signals:
        while told := signals.recv(16):
            if signal.SIGINT in told and not over.wait(GRACE_S):
                _end()


def _end() -> None:
    if helping := sys.modules.get("multiprocessing"):  # not loaded: no helpers
        for helper in helping.active_children():
            helper.kill()
    with suppress(OSError, ValueError):
        sys.stdout.flush()
        os.write(2, b"Stopped.\n")
    os._exit(INTERRUPTED)
