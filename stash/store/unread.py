"""What an event says, not read before somebody asks: one may name fifty thousand labels."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any

LARGE = 100_000
"""Characters from which on reading takes longer than everything else of a line of history."""


class Unread(Mapping[str, Mapping[str, Any]]):
    """A change by its JSON; equal to the dict that it is."""

    def __init__(self, text: str):
        self.text = text

    @cached_property
    def _read(self) -> Mapping[str, Mapping[str, Any]]:
        found: Mapping[str, Mapping[str, Any]] = json.loads(self.text)
        return found

    def __getitem__(self, subject: str) -> Mapping[str, Any]:
        return self._read[subject]

    def __iter__(self) -> Iterator[str]:
        return iter(self._read)

    def __len__(self) -> int:
        return len(self._read)


def change_of(text: str) -> Mapping[str, Mapping[str, Any]]:
    """The change at once, or when it is asked for where it is large."""
    if len(text) > LARGE:
        return Unread(text)
    change: Mapping[str, Mapping[str, Any]] = json.loads(text)
    return change
