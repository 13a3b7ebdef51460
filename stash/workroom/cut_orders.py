"""The orders in which cuts are listed: a row here is offered, said and obeyed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from stash.model import Cut


@dataclass(frozen=True)
class CutOrder:
    """``key`` is asked for, ``name`` is read (in English, to be translated), ``rank`` sorts."""

    key: str
    name: str
    rank: Callable[[Cut], Any]


CUT_ORDERS = (
    CutOrder("", "Place", lambda cut: (cut.place or "~", -cut.length_mm)),
    CutOrder("longest", "Longest first", lambda cut: -cut.length_mm),
    CutOrder("shortest", "Shortest first", lambda cut: cut.length_mm),
    CutOrder("name", "Name", lambda cut: (cut.cloth.name.casefold(), -cut.length_mm)),
    CutOrder("oldest", "Oldest first", lambda cut: cut.acquired or "9999"),
    CutOrder("heaviest", "Heaviest first", lambda cut: -(cut.cloth.mass_gsm or 0)),
)
"""The first is what nobody asked for, and what an unknown key gets."""


def in_order(cuts: Iterable[Cut], key: str) -> list[Cut]:
    """The cuts in the order of that key."""
    order = next((order for order in CUT_ORDERS if order.key == key), CUT_ORDERS[0])
    return sorted(cuts, key=order.rank)
