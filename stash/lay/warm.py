"""The kernels, compiled before anyone waits for them: the first time on two cores.

Meant for a background thread at the start of the app, and before the clock of a search
starts. The first time on a machine a first lay is ready in some seconds, the search in some
more; after that it takes about a second in a new process, and nothing in one that is warm.
"""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from collections.abc import Callable

from stash.fact import Fact, fact
from stash.lay import kept
from stash.lay.compile_ahead import ELSEWHERE, FOR_A_FIRST_LAY, FOR_A_SEARCH, Called, compiled
from stash.waited_for import waiting_for

Tell = Callable[[Fact], None]


class _Warming:
    """How far this process has come with its kernels, and the other that helps it."""

    def __init__(self) -> None:
        self.lock = threading.RLock()
        self.helper: subprocess.Popen[str] | None = None
        self.first_lay = self.search = False

    def for_a_first_lay(self, tell: Tell) -> None:
        """Everything that screens and fills; who comes while another is at it is told too."""
        if not self.first_lay and not kept.complete():
            tell(fact("getting_ready_to_lay"))
        with self.lock:
            if self.first_lay:
                return
            if not kept.complete():
                self.helper = _helper()
            _drained(FOR_A_FIRST_LAY)
            self._await("outline")
            _drained(ELSEWHERE[:2])
            self.first_lay = True

    def for_a_search(self, tell: Tell) -> None:
        """Everything else."""
        self.for_a_first_lay(tell)
        if not self.search and not kept.complete():
            tell(fact("getting_ready_to_search"))
        with self.lock:
            if self.search:
                return
            _drained(FOR_A_SEARCH)
            self._await("separate")
            _drained(ELSEWHERE)
            kept.completed()
            self.search = True

    def _await(self, kernel: str) -> None:
        """Wait until the helper has kept this; when it ended early, that is done here."""
        if self.helper is not None and self.helper.stdout is not None:
            for line in self.helper.stdout:
                if line.strip() == kernel:
                    return
            self.helper.wait()


_warming = _Warming()


def is_warm() -> bool:
    """True once this process has its kernels."""
    return _warming.search


def warm(tell: Tell = waiting_for) -> None:
    """Have every kernel compiled; ``tell`` is told, as facts, what takes so long."""
    _warming.for_a_search(tell)


def warm_for_a_first_lay(tell: Tell = waiting_for) -> None:
    """Have the kernels compiled that screen and lay, while others may still be in the making."""
    _warming.for_a_first_lay(tell)


def _drained(called: tuple[Called, ...]) -> None:
    for _ in compiled(called):
        pass


def _helper() -> subprocess.Popen[str] | None:
    """Another process on another core; none where nothing is kept or none can be started."""
    folder = kept.folder()
    if folder is None or (os.cpu_count() or 1) < 2:
        return None
    surroundings = os.environ | {
        "NUMBA_CACHE_DIR": str(folder), "PYTHONPATH": os.pathsep.join(filter(None, sys.path))
    }
    try:
        return subprocess.Popen(
            [sys.executable, "-m", "stash.lay.compile_ahead"], env=surroundings, text=True,
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except OSError:
        return None
