"""What is typed of a notion: how many there are or how much, and its size."""

from __future__ import annotations

import re

from stash.errors import InvalidInput
from stash.fact import Term
from stash.model.notions import NotionKind
from stash.quantity import Quantity, read_length, read_length_or_nothing
from stash.units import System

AMOUNT = {kind: Quantity.TAPE_LENGTH for kind in NotionKind if not kind.counted} | {
    NotionKind.THREAD: Quantity.THREAD_LENGTH,
}
SIZE = dict.fromkeys(NotionKind, Quantity.TAPE_WIDTH) | {
    NotionKind.BUTTON: Quantity.BUTTON, NotionKind.SNAP: Quantity.BUTTON,
    NotionKind.ZIP: Quantity.ZIP, NotionKind.INTERFACING: Quantity.WIDTH,
}

_COUNT = re.compile(r"\s*(?:\d{1,7}|\d{1,3}(?:[.,\s]\d{3}){1,2})\s*")
"""A whole number, its thousands set apart or not: 1234, 1,234, 1.234, 1 234."""


def read_amount(
    kind: NotionKind, text: str, *, field: str = "amount", system: System = System.METRIC
) -> float:
    """A whole number of things, or millimetres of a length; 0 is an empty bin.

    Raises InvalidInput for anything else.
    """
    if not kind.counted:
        return read_length_or_nothing(text, AMOUNT[kind], field=field, system=system)
    if not _COUNT.fullmatch(text):
        raise InvalidInput(
            "not_a_count", typed=text.strip()[:40], of=Term(f"{kind.value}s"), field=field)
    return float("".join(filter(str.isdigit, text)))


def read_notion_size(
    kind: NotionKind, text: str, *, field: str = "size", system: System = System.METRIC
) -> float | None:
    """Millimetres of what a notion's size is (``Notion.size_mm``); None when nothing is typed."""
    if not text.strip():
        return None
    return read_length(text, SIZE[kind], field=field, system=system)
