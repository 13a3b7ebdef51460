"""The pages answered over plain HTTP in a thread of their own, and stopped without a fright."""

from __future__ import annotations

import logging
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import waitress
from waitress.wasyncore import close_all

STOP_S = 5
LISTEN_S = 0.5


@dataclass(frozen=True)
class Answering:
    """A server at work on ``port``."""

    port: int
    thread: threading.Thread

    def wait(self) -> None:
        """Until it has stopped, or Ctrl-C: Windows hears that between two short waits only."""
        while self.thread.is_alive():
            self.thread.join(LISTEN_S)


@contextmanager
def answering(app, host: str, port: int, **adjustments: object) -> Iterator[Answering]:
    """Answer in the background until the block is left; port 0 takes a free one.

    ``adjustments`` are waitress's own. Raises OSError when the port cannot be taken.
    """
    # Its errors are told; that a page waits its turn for a moment means nothing at a terminal.
    logging.getLogger("waitress").setLevel(logging.ERROR)
    sockets: dict[int, object] = {}
    server = waitress.create_server(app, map=sockets, host=host, port=port, **adjustments)
    thread = threading.Thread(target=server.run, name="pages", daemon=True)
    thread.start()
    try:
        yield Answering(server.effective_port, thread)
    finally:
        server.task_dispatcher.shutdown(timeout=STOP_S)
        _close_in_its_own_thread(server, sockets)
        thread.join(STOP_S)


def _close_in_its_own_thread(server, sockets: dict[int, object]) -> None:
    """Let the listening thread close the sockets it waits on.

    Closed from another thread they would vanish under its wait, and it would end in a
    traceback. ``asked`` keeps the pipe that wakes it open until this thread has written to it.
    """
    asked = threading.Event()

    def close() -> None:
        asked.wait(STOP_S)
        close_all(sockets, ignore_all=True)

    server.trigger.pull_trigger(close)
    asked.set()
