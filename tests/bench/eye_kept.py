"""Measurements kept as they are made, so that a long bench can be run in slices.

A kept row is only read again while the code it measured, and that which drew its picture, are
letter by letter what they were: their digest is part of its key. Pictures are kept too.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterator
from hashlib import sha256
from pathlib import Path

HOUSE = Path(__file__).parents[2]


class Kept:
    """Rows of figures under the seed each was drawn from, one JSON line a row."""

    def __init__(self, folder: Path | None, seconds: float) -> None:
        """Keep in a folder, or nowhere; ``seconds`` is how long new rows may take in all."""
        self.folder, self.ends = folder, time.monotonic() + seconds

    def rows(
        self, name: str, seeds: range, measured: Callable[[int], dict], reads: tuple[str, ...]
    ) -> Iterator[dict]:
        """One row a seed, those kept first, until the time is over.

        Args:
            name: what is measured, the name of the file.
            seeds: what the pictures are drawn from.
            measured: the figures of one seed, as JSON can say them.
            reads: the code a row hangs on, files and folders from the house's root.
        """
        known = dict(self._known(name, mark := _digest(reads)))
        for seed in seeds:
            if seed in known:
                yield known[seed]
            elif time.monotonic() < self.ends:
                row = measured(seed)
                if self.folder:
                    self.folder.mkdir(parents=True, exist_ok=True)
                    with (self.folder / f"{name}.jsonl").open("a") as file:
                        file.write(json.dumps({"code": mark, "seed": seed, "row": row}) + "\n")
                yield row

    def picture(self, name: str, drawn: Callable[[], bytes], reads: tuple[str, ...]) -> bytes:
        """The bytes of a picture, drawn once: what measures it may change, what drew it did not."""
        if not self.folder:
            return drawn()
        file = self.folder / f"{name} {_digest(reads)}.jpg"
        if not file.exists():
            self.folder.mkdir(parents=True, exist_ok=True)
            file.write_bytes(drawn())
        return file.read_bytes()

    def _known(self, name: str, mark: str) -> Iterator[tuple[int, dict]]:
        file = self.folder and self.folder / f"{name}.jsonl"
        if file and file.exists():
            for line in file.read_text().splitlines():
                kept = json.loads(line)
                if kept["code"] == mark:
                    yield kept["seed"], kept["row"]


def _digest(reads: tuple[str, ...]) -> str:
    found = sha256()
    for place in reads:
        at = HOUSE / place
        for file in sorted(at.rglob("*.py")) if at.is_dir() else [at]:
            found.update(file.read_bytes())
    return found.hexdigest()[:16]
