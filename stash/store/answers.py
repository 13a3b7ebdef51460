"""Answers as they were given, one file each, so that they outlive the app; the oldest go first.

They are no part of the record: each can be asked again, so no copy holds them and nothing
is lost with one that cannot be read.
"""

from __future__ import annotations

import json
import re
from contextlib import suppress
from pathlib import Path
from typing import Any

from stash.store.folder import DataFolder, write_private

MOST_KEPT = 40
KEY = re.compile(r"[A-Za-z0-9_-]{8,40}")


class AnswerFiles:
    """The folder ``answers`` beside the record."""

    def __init__(self, folder: DataFolder):
        self.path = folder.path / "answers"

    def keep(self, key: str, answer: dict[str, Any]) -> None:
        """Write one, and let the oldest beyond the most go; a full disk keeps none, and no more."""
        with suppress(OSError):
            write_private(self._file(key), json.dumps(answer).encode())
            for file in self._newest_first()[MOST_KEPT:]:
                file.unlink(missing_ok=True)

    def get(self, key: str) -> dict[str, Any] | None:
        """One by its key; None when it is not kept, or cannot be read."""
        return _read(self._file(key)) if KEY.fullmatch(key) else None

    def all(self) -> list[tuple[str, dict[str, Any]]]:
        """(key, answer) of every one that can be read, the newest first."""
        read = [(file.stem, _read(file)) for file in self._newest_first()]
        return [(key, answer) for key, answer in read if answer is not None]

    def _file(self, key: str) -> Path:
        return self.path / f"{key}.json"

    def _newest_first(self) -> list[Path]:
        found: list[tuple[int, Path]] = []
        for file in self.path.glob("*.json"):
            with suppress(OSError):
                found.append((file.stat().st_mtime_ns, file))
        return [file for _, file in sorted(found, reverse=True)]


def _read(file: Path) -> dict[str, Any] | None:
    try:
        found = json.loads(file.read_bytes())
    except (OSError, ValueError):
        return None
    return found if isinstance(found, dict) else None
