"""Where machine code is kept: a folder of her own that nobody else can put code into.

What is found there is run, so a folder that others may write to, or that another account
made, is not used: everything is then compiled anew in memory.
"""

from __future__ import annotations

import hashlib
import os
import stat
from functools import cache
from pathlib import Path

import numba
from llvmlite import binding as llvm  # type: ignore[import-untyped]
from platformdirs import user_cache_path


@cache
def folder() -> Path | None:
    """A folder of its own for every state of the kernels; None where there is no safe one.

    Kernels call each other across files, and an older copy of the program may still be
    running during an update, so the folder is named by what all their sources say.
    """
    if given := os.environ.get("NUMBA_CACHE_DIR"):
        return Path(given)
    return own_folder(user_cache_path("lengthwise", appauthor=False), f"lays-{_sources()}")


def own_folder(base: Path, name: str) -> Path | None:
    """``name`` in ``base``, both made for their owner alone; None when they are not."""
    try:
        base.parent.mkdir(parents=True, exist_ok=True)
        for place in (base, base / name):
            place.mkdir(mode=0o700, exist_ok=True)
            if not _hers_alone(place, nobody_reads=place != base):
                return None
        (base / name / "writable").touch()
    except OSError:
        return None
    return base / name


def complete() -> bool:
    """True when this folder has had every kernel once, made for this very processor."""
    own = folder()
    return own is not None and (own / _made_for()).exists()


def completed() -> None:
    """Note that every kernel is kept."""
    own = folder()
    if own is not None and own.is_dir():
        (own / _made_for()).touch()


def _hers_alone(place: Path, *, nobody_reads: bool) -> bool:
    """A folder, no link to one, that belongs to this account and that no other can write to."""
    if os.name != "posix":  # elsewhere the cache lies in the account's own profile
        return True
    seen = place.lstat()
    open_to = stat.S_IMODE(seen.st_mode) & (0o077 if nobody_reads else 0o022)
    return stat.S_ISDIR(seen.st_mode) and seen.st_uid == os.geteuid() and not open_to


def _sources() -> str:
    said = hashlib.sha256()
    for source in sorted(Path(__file__).parent.rglob("*.py")):
        text = source.read_bytes()
        if b"lay.compiled" in text or source.name in ("compiled.py", "parts.py"):
            said.update(text)
    return said.hexdigest()[:16]


def _processor() -> str:
    return str(llvm.get_host_cpu_name())


def _made_for() -> str:
    return f"complete {numba.__version__} {_processor()} {_sources()}"
