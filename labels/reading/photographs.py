"""Photographs on disk: each file gives its labels, or one sentence why it has none."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from labels.reading.photograph import check_size, look_apart
from labels.reading.readings import LabelReading
from stash.errors import InvalidInput, StashError
from stash.fact import Fact, fact

PICTURES = frozenset(
    [".jpg", ".jpeg", ".png", ".webp", ".bmp", ".tif", ".tiff", ".gif", ".heic", ".heif", ".avif"]
)
NO_LABEL = fact("no_label_in_file")


@dataclass(frozen=True)
class FileResult:
    """What one file gave; ``error`` says why when that is nothing."""

    file: str
    readings: tuple[LabelReading, ...]
    ms: float
    error: Fact | None = None
    hint: Fact | None = None

    def to_json(self, told: Callable[[Fact], str]) -> dict[str, object]:
        """The shape other programs see; "error" and "hint" only where there is one."""
        value: dict[str, object] = {
            "file": self.file,
            "codes": [r.to_json() for r in self.readings],
            "ms": round(self.ms, 1),
        }
        for name, what in (("error", self.error), ("hint", self.hint)):
            if what:
                value |= {name: told(what), f"{name}_fact": what.to_json()}
        return value


def photographs(paths: Iterable[Path]) -> Iterator[Path]:
    """The files themselves, and of each folder its pictures by name."""
    for path in paths:
        yield from _pictures_in(path)


def _pictures_in(path: Path) -> list[Path]:
    try:
        if path.is_dir():
            return sorted(p for p in path.iterdir() if p.suffix.lower() in PICTURES)
    except OSError:
        pass  # reading it will say why it cannot be read
    return [path]


def read_file(path: Path) -> FileResult:
    """The labels of one file; never raises for what the file holds."""
    began = time.perf_counter()
    readings: tuple[LabelReading, ...] = ()
    error = hint = None
    try:
        sight = look_apart(_contents(path))
        readings, hint = sight.readings, sight.hint
        if not readings:
            error = hint or _nothing_but(sight.strangers) or NO_LABEL
            hint = None
    except StashError as refused:
        error = refused.fact
    return FileResult(str(path), readings, (time.perf_counter() - began) * 1000, error, hint)


def _contents(path: Path) -> bytes:
    try:
        check_size(path.stat().st_size)
        return path.read_bytes()
    except FileNotFoundError:
        raise InvalidInput("no_such_file", path=path.name) from None
    except OSError as error:
        raise InvalidInput("file_cannot_be_opened", because=error.strerror) from None


def _nothing_but(strangers: tuple[str, ...]) -> Fact | None:
    return fact("code_not_ours", says=strangers[0][:60]) if strangers else None
