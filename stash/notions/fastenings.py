"""Zips, hooks, snaps and tape."""

from __future__ import annotations

from math import ceil

from stash.model import Need, Notion, NotionKind
from stash.notions.rules import value


def zip_need(opening_mm: float, why: str) -> Need:
    """One zip for an opening; a longer one serves only where :func:`zip_serves` says so."""
    return Need(
        kind=NotionKind.ZIP,
        why=why,
        count=1,
        size_mm=(opening_mm - value("zip_short"), opening_mm, opening_mm + value("zip_long")),
        match_colour=True,
    )


def zip_serves(notion: Notion, opening_mm: float) -> tuple[bool, str]:
    """Whether this zip closes the opening, and why.

    A coil zip is shortened at the bottom by a sewn stop; a metal or moulded one
    is not, because its teeth would have to be pulled out.
    """
    if notion.size_mm is None:
        return False, "The length of this zip is not on record."
    over = notion.size_mm - opening_mm
    if over < -value("zip_short"):
        return False, f"It is {-over:.0f} mm too short."
    if over <= value("zip_short"):
        return True, "The length is right."
    if not notion.shortenable:
        return False, f"It is {over:.0f} mm too long and cannot be shortened at the bottom."
    if over > value("zip_long"):
        return False, f"It could be shortened, but {over:.0f} mm would be wasted."
    return True, f"Shorten it by {over:.0f} mm at the bottom with a sewn stop."


def hook_need(count: int, why: str) -> Need:
    """Hooks and eyes, or hooks and bars, by the pair."""
    return Need(kind=NotionKind.HOOK, why=why, count=count)


def snap_need(length_mm: float, why: str, *, diameter_mm: float = 11.0) -> Need:
    """Snaps set evenly along an opening, both ends included."""
    return Need(
        kind=NotionKind.SNAP,
        why=why,
        count=max(1, ceil(length_mm / value("snap_gap") - 1e-9)) + 1,
        size_mm=(diameter_mm * 0.7, diameter_mm, diameter_mm * 1.3),
    )


def tape_need(length_mm: float, width_mm: float, why: str) -> Need:
    """Tape or ribbon along an edge or as ties, ends turned in."""
    return Need(
        kind=NotionKind.TAPE,
        why=why,
        length_mm=length_mm + value("tape_spare"),
        size_mm=(width_mm * 0.75, width_mm, width_mm * 1.25),
    )
