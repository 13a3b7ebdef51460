"""Answers as they were given, one file each, so that they outlive the app; the oldest go first.

They are no part of the record: each can be asked again, so no copy holds them and nothing
is lost with one that cannot be read. The first line of a file is its head, what a list of them
shows; the second is the answer itself.
"""

from __future__ import annotations

import json
import os
import re
from contextlib import suppress
from pathlib import Path
from typing import Any

from stash.store.folder import DataFolder, write_private

MOST_KEPT = 40
KEY = re.compile(r"[A-Za-z0-9_-]{8,40}")

Plain = dict[str, Any]


class AnswerFiles:
    """The folder ``answers`` beside the record."""

    def __init__(self, folder: DataFolder):
        self.path = folder.path / "answers"

    def keep(self, key: str, head: Plain, answer: Plain | None = None) -> None:
        """Write one, and let the oldest beyond the most go; a full disk keeps none, and no more."""
        with suppress(OSError):
            write_private(self._file(key), _lines(head, answer or {}))
            for file in self._newest_first()[MOST_KEPT:]:
                file.unlink(missing_ok=True)

    def amend(self, key: str, **head: Any) -> None:
        """Write these into the head of one that is kept; it stays as old as it was."""
        found = self.get(key)
        if found is None:
            return
        with suppress(OSError):
            old = self._file(key).stat()
            write_private(self._file(key), _lines(found[0] | head, found[1]))
            os.utime(self._file(key), ns=(old.st_atime_ns, old.st_mtime_ns))

    def get(self, key: str) -> tuple[Plain, Plain] | None:
        """(head, answer) by its key; None when it is not kept, or cannot be read."""
        return _read(self._file(key)) if KEY.fullmatch(key) else None

    def heads(self) -> list[tuple[str, Plain]]:
        """(key, head) of every one that can be read, the newest first."""
        read = [(file.stem, _head(file)) for file in self._newest_first()]
        return [(key, head) for key, head in read if head is not None]

    def _file(self, key: str) -> Path:
        return self.path / f"{key}.json"

    def _newest_first(self) -> list[Path]:
        found: list[tuple[int, Path]] = []
        for file in self.path.glob("*.json"):
            with suppress(OSError):
                found.append((file.stat().st_mtime_ns, file))
        return [file for _, file in sorted(found, reverse=True)]


def _lines(head: Plain, answer: Plain) -> bytes:
    return f"{json.dumps(head)}\n{json.dumps(answer)}\n".encode()


def _head(file: Path) -> Plain | None:
    with suppress(OSError, ValueError), file.open("rb") as opened:
        found = json.loads(opened.readline())
        return found if isinstance(found, dict) else None
    return None


def _read(file: Path) -> tuple[Plain, Plain] | None:
    with suppress(OSError, ValueError):
        head, answer = (json.loads(line) for line in file.read_bytes().splitlines())
        if isinstance(head, dict) and isinstance(answer, dict):
            return head, answer
    return None
