"""Photographs on disk: each file gives its labels, or one sentence why it has none."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from labels.reading.photograph import check_size, look_bytes
from labels.reading.readings import LabelReading
from stash.errors import InvalidInput, StashError

PICTURES = frozenset(
    [".jpg", ".jpeg", ".png", ".webp", ".bmp", ".tif", ".tiff", ".gif", ".heic", ".heif", ".avif"]
)
NO_LABEL = "No label was found in this photograph: come closer, or type the code."


@dataclass(frozen=True)
class FileResult:
    """What one file gave; ``error`` is a sentence when that is nothing."""

    file: str
    readings: tuple[LabelReading, ...]
    ms: float
    error: str = ""
    hint: str = ""

    def to_json(self) -> dict:
        """The shape other programs see; "error" and "hint" only where there is one."""
        value = {
            "file": self.file,
            "codes": [r.to_json() for r in self.readings],
            "ms": round(self.ms, 1),
        }
        return value | {k: v for k, v in (("error", self.error), ("hint", self.hint)) if v}


def photographs(paths: Iterable[Path]) -> Iterator[Path]:
    """The files themselves, and of each folder its pictures by name."""
    for path in paths:
        if path.is_dir():
            yield from sorted(p for p in path.iterdir() if p.suffix.lower() in PICTURES)
        else:
            yield path


def read_file(path: Path) -> FileResult:
    """The labels of one file; never raises for what the file holds."""
    began = time.perf_counter()
    readings: tuple[LabelReading, ...] = ()
    error = hint = ""
    try:
        sight = look_bytes(_contents(path))
        readings, hint = sight.readings, sight.hint
        if not readings:
            error = hint or _nothing_but(sight.strangers) or NO_LABEL
            hint = ""
    except StashError as refused:
        error = str(refused)
    return FileResult(str(path), readings, (time.perf_counter() - began) * 1000, error, hint)


def _contents(path: Path) -> bytes:
    try:
        check_size(path.stat().st_size)
        return path.read_bytes()
    except FileNotFoundError:
        raise InvalidInput("There is no such file: check its name.") from None
    except OSError as error:
        raise InvalidInput(f"This file cannot be opened ({error.strerror}).") from None


def _nothing_but(strangers: tuple[str, ...]) -> str:
    if not strangers:
        return ""
    return f"The code in this photograph is not one of our labels: it says “{strangers[0][:60]}”."
