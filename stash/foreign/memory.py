"""How much memory this process takes, and a bound on it, on every system.

Linux refuses memory beyond the bound, so that reading fails softly. macOS and Windows do
not: there the process looks at its own account twenty times a second and ends itself, which
a decoder that takes much at once may outrun. So nothing rests on this alone: pixels, shapes
and what a zip unpacks to are counted first.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

LOOK_S = 0.05
EXCEEDED = 77
"""The exit status of a process that ended itself for the memory it took."""


@contextmanager
def bounded(memory_mb: int) -> Iterator[None]:
    """Inside, no more than so much beyond what is taken at the beginning."""
    if sys.platform == "linux" and _address_space():
        with _refused(memory_mb * 1_000_000):
            yield
        return
    with watched(memory_mb * 1_000_000, lambda: os._exit(EXCEEDED)):
        yield


@contextmanager
def _refused(more_bytes: int) -> Iterator[None]:
    import resource

    before = resource.getrlimit(resource.RLIMIT_AS)
    wanted = _address_space() + more_bytes
    if before[1] != resource.RLIM_INFINITY:
        wanted = min(wanted, before[1])
    resource.setrlimit(resource.RLIMIT_AS, (wanted, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, before)


@contextmanager
def watched(more_bytes: int, exceeded: Callable[[], object]) -> Iterator[None]:
    """Inside, ``exceeded`` is called as soon as more than so much is taken in addition."""
    over = threading.Event()
    most = resident() + more_bytes

    def watch() -> None:
        while not over.wait(LOOK_S):
            if resident() > most:
                exceeded()
                return

    thread = threading.Thread(target=watch, name="memory", daemon=True)
    thread.start()
    try:
        yield
    finally:
        over.set()


def resident() -> int:
    """The bytes of memory this process holds, or the most it ever held; 0 when nobody says."""
    if sys.platform == "win32":
        return _resident_windows()
    return _pages(1) or _most_held()


def _address_space() -> int:
    return _pages(0)


def _pages(column: int) -> int:
    """A column of Linux's account in bytes; 0 where there is none."""
    try:
        with open("/proc/self/statm", encoding="ascii") as file:  # noqa: PTH123 - no Path needed
            return int(file.read().split()[column]) * os.sysconf("SC_PAGE_SIZE")
    except OSError:
        return 0


def _most_held() -> int:
    try:
        import resource
    except ImportError:
        return 0
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most if sys.platform == "darwin" else most * 1024  # the one counts bytes, others kB


def _resident_windows() -> int:
    import ctypes
    from ctypes import wintypes

    class Counters(ctypes.Structure):
        _fields_ = [("cb", wintypes.DWORD), ("faults", wintypes.DWORD)] + [
            (name, ctypes.c_size_t) for name in (
                "peak", "resident", "peak_paged", "paged", "peak_nonpaged", "nonpaged",
                "pagefile", "peak_pagefile")]

    counters = Counters()
    counters.cb = ctypes.sizeof(counters)
    kernel = ctypes.windll.kernel32  # type: ignore[attr-defined]
    kernel.GetCurrentProcess.restype = wintypes.HANDLE
    kernel.K32GetProcessMemoryInfo.argtypes = [
        wintypes.HANDLE, ctypes.POINTER(Counters), wintypes.DWORD]
    with suppress(OSError):
        kernel.K32GetProcessMemoryInfo(
            kernel.GetCurrentProcess(), ctypes.byref(counters), counters.cb)
    return int(counters.resident)

