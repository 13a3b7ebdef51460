"""The orders in which cuts are listed: a row here is offered and said; its SQL is the store's."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class CutOrder:
    """``key`` is asked for (``stash.store.finding.ORDERS``), ``name`` is read, in English."""

    key: str
    name: str


CUT_ORDERS = (
    CutOrder("", "Place"),
    CutOrder("newest", "Newest on record"),
    CutOrder("longest", "Longest first"),
    CutOrder("shortest", "Shortest first"),
    CutOrder("name", "Name"),
    CutOrder("oldest", "Oldest first"),
    CutOrder("heaviest", "Heaviest first"),
)
"""The first is what nobody asked for, and what an unknown key gets."""
