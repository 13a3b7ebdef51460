"""Asking a reader in another process, which may take so much work and no more."""

from __future__ import annotations

import atexit
import logging
import os
import pickle
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar, TypeVarTuple

from stash import errors
from stash.errors import InvalidInput, StashError, Unavailable
from stash.foreign import memory, pipe, processor
from stash.foreign.limits import Limits

Sent = TypeVarTuple("Sent")
Answered = TypeVar("Answered")
AT_ONCE = 2
"""So many files are read at a time: two cores, and memory for two."""
PATIENCE_S = 30.0
"""How long a file waits for its turn."""
UNHURRIED = 12.0
"""On a machine that others keep busy, so many times a reader's seconds may pass by the clock."""
MOST_TASKS = 50
LOOK_S = 0.05


class _Process:
    """One reading process, which may be asked again and again."""

    def __init__(self) -> None:
        root = str(Path(errors.__file__).parents[1])
        path = os.pathsep.join(filter(None, (root, os.environ.get("PYTHONPATH"))))
        one_thread = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"), "1")
        self.tasks = 0
        self.process = subprocess.Popen(
            [sys.executable, "-P", "-m", "stash.foreign.child"], stdin=subprocess.PIPE,
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            env={**os.environ, **one_thread, "PYTHONPATH": path},
        )

    def ask(self, task: bytes, limits: Limits, stop: Callable[[], bool]) -> tuple[Any, ...]:
        """The answer, or ("failed", why) when it takes too much of anything."""
        self.tasks += 1
        heard: list[bytes | None] = []
        over = threading.Event()

        def talk() -> None:
            with suppress(OSError, ValueError, pipe.TooLong):
                pipe.send_packed(self._stdin, task)
                heard.append(pipe.receive(self._stdout, limits.answer_mb * 1_000_000))
            over.set()

        threading.Thread(target=talk, name="foreign file", daemon=True).start()
        patience = limits.seconds * (UNHURRIED if processor.counted() else 1.0)
        end = time.monotonic() + patience
        while not over.wait(LOOK_S):
            if stop() or time.monotonic() > end:
                self.end()
                return "failed", "stopped" if stop() else "time"
        if not heard or heard[0] is None:
            return "failed", self._why_ended()
        try:
            return tuple(pipe.answer(heard[0]))
        except Exception:
            self.end()
            return "failed", "answer"

    @property
    def _stdin(self) -> Any:
        return self.process.stdin

    @property
    def _stdout(self) -> Any:
        return self.process.stdout

    def _why_ended(self) -> str:
        """What it took too much of, if that is why it ended by itself."""
        with suppress(subprocess.TimeoutExpired):
            status = self.process.wait(PATIENCE_S)
            if processor.exceeded(status):
                return "time"
            if status == memory.EXCEEDED:
                return "memory"
        return "ended"

    @property
    def usable(self) -> bool:
        """Whether it may be asked again."""
        return self.process.poll() is None and self.tasks < MOST_TASKS

    def end(self) -> None:
        """End it, whatever it does."""
        self.process.kill()
        self.process.wait()
        for end in (self.process.stdin, self.process.stdout):
            with suppress(OSError):
                end.close()  # type: ignore[union-attr]


_turns = threading.BoundedSemaphore(AT_ONCE)
_idle: list[_Process] = []
_lock = threading.Lock()


def read_apart(
    limits: Limits, reader: Callable[[*Sent], Answered], *arguments: *Sent,
    stop: Callable[[], bool] = lambda: False,
) -> Answered:
    """``reader(*arguments)``, read in a process of its own within the limits.

    InvalidInput when the file takes too much time, memory or room, Unavailable when too
    many others are being read; whatever StashError the reader itself raises is raised here.
    ``reader`` must be a function of a module, its arguments and value plain. Nothing is
    begun for somebody who has had enough already, however soon it would be read.
    """
    if stop():
        raise InvalidInput("reading_stopped")
    task = pickle.dumps((reader, arguments, limits), protocol=5)
    if not _turns.acquire(timeout=PATIENCE_S):
        raise Unavailable("reading_busy")
    try:
        process = _taken()
        try:
            told = process.ask(task, limits, stop)
        except BaseException:
            process.end()
            raise
        _given_back(process)
    finally:
        _turns.release()
    value: Answered = _value(told, limits)
    return value


def _taken() -> _Process:
    with _lock:
        while _idle:
            if (process := _idle.pop()).usable:
                return process
            process.end()
    return _Process()


def _given_back(process: _Process) -> None:
    if not process.usable:
        process.end()
        return
    with _lock:
        _idle.append(process)


def _value(told: tuple[Any, ...], limits: Limits) -> Any:
    if told[0] == "read":
        return told[1]
    if told[0] == "refused":
        raise _refusal(*told[1:])
    why = str(told[1])
    if why == "stopped":
        raise InvalidInput("reading_stopped")
    if why == "time":
        raise InvalidInput("file_takes_too_long", count=int(limits.seconds))
    if why in ("memory", "answer", "depth"):
        raise InvalidInput("file_takes_too_much")
    logging.getLogger("stash.foreign").warning("a foreign file could not be read: %s", why)
    raise InvalidInput("foreign_file_damaged")


def _refusal(name: str, said: Any, field: str | None) -> StashError:
    kind = getattr(errors, name, None)
    if kind is InvalidInput or not (isinstance(kind, type) and issubclass(kind, StashError)):
        return InvalidInput(said, field=field)
    try:
        return kind(said)
    except TypeError:  # an error that carries more than a fact
        return InvalidInput(said, field=field)


@atexit.register
def close() -> None:
    """End the reading processes that wait for work."""
    with _lock:
        while _idle:
            _idle.pop().end()
