"""How much of the processor this process may take: work, whatever else the machine does.

Where the system counts it (POSIX, setrlimit: RLIMIT_CPU, in whole seconds) it ends a process
that takes more, also one that is deep in native code. Elsewhere only the clock is left.
"""

from __future__ import annotations

import math
import signal
import time
from collections.abc import Iterator
from contextlib import contextmanager


def counted() -> bool:
    """Whether the system counts it and ends who takes more."""
    try:
        import resource
    except ImportError:
        return False
    return hasattr(resource, "RLIMIT_CPU")


@contextmanager
def bounded(seconds: float) -> Iterator[None]:
    """Inside, no more than so many seconds of the processor, rounded up to whole ones."""
    if not counted():
        yield
        return
    import resource

    before = resource.getrlimit(resource.RLIMIT_CPU)
    wanted = math.ceil(time.process_time() + seconds)
    if before[1] != resource.RLIM_INFINITY:
        wanted = min(wanted, before[1])
    resource.setrlimit(resource.RLIMIT_CPU, (wanted, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_CPU, before)


def exceeded(status: int | None) -> bool:
    """Whether a process ended with this status because it took more."""
    return hasattr(signal, "SIGXCPU") and status == -signal.SIGXCPU
