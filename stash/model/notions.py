"""Notions and the bins that hold them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class NotionKind(StrEnum):
    """What a bin may hold."""

    BUTTON = "button"
    SNAP = "snap"
    HOOK = "hook"
    ZIP = "zip"
    ELASTIC = "elastic"
    THREAD = "thread"
    INTERFACING = "interfacing"
    BINDING = "binding"
    TAPE = "tape"
    CORD = "cord"

    @property
    def counted(self) -> bool:
        """True when the amount is a number of things, False when it is millimetres."""
        return self in {NotionKind.BUTTON, NotionKind.SNAP, NotionKind.HOOK, NotionKind.ZIP}


@dataclass(frozen=True, kw_only=True)
class Notion:
    """One kind of thing.

    ``size_mm`` is the diameter of a button or snap, the length of a zip, and the
    width of elastic, interfacing, binding, tape and cord; thread has none.
    ``thickness_mm`` and ``shank`` (domed, or on a shank) are a button's.
    """

    kind: NotionKind
    name: str
    size_mm: float | None = None
    colour: str | None = None
    material: str = ""
    fusible: bool = False
    shortenable: bool = False
    thickness_mm: float | None = None
    shank: bool = False
    mass_gsm: float | None = None
    notes: str = ""


MOST_THICK_MM = 40.0
"""No button is thicker; what is, was typed in another unit."""

SAID_OF: Mapping[str, frozenset[NotionKind]] = {
    "size": frozenset(NotionKind) - {NotionKind.THREAD},
    "fusible": frozenset({NotionKind.INTERFACING}),
    "mass": frozenset({NotionKind.INTERFACING}),
    "shortenable": frozenset({NotionKind.ZIP}),
    "thickness": frozenset({NotionKind.BUTTON}),
    "shank": frozenset({NotionKind.BUTTON}),
}
"""Of which kinds a fact can be said; what is in no row is said of all."""


def out_of_place(notion: Notion) -> tuple[str, ...]:
    """Facts that it bears though nothing of its kind has them, by their names in ``SAID_OF``."""
    known = {
        "size": notion.size_mm, "fusible": notion.fusible, "mass": notion.mass_gsm,
        "shortenable": notion.shortenable, "thickness": notion.thickness_mm, "shank": notion.shank,
    }
    return tuple(
        name for name, value in known.items() if value and notion.kind not in SAID_OF[name])


@dataclass(frozen=True, kw_only=True)
class Bin:
    """One labelled container of one notion.

    ``amount`` is a count for counted kinds and millimetres for the others
    (see ``NotionKind.counted``).
    """

    code: str
    notion: Notion
    amount: float
    place: str | None = None
