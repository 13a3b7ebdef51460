"""Zips, hooks, snaps and tape."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from stash.fact import Fact, fact
from stash.model import Need, Notion, NotionKind
from stash.notions.published_tables import rows
from stash.notions.rules import value

TOP, BOTTOM, EXACT = "top", "bottom", ""


@dataclass(frozen=True)
class ZipVerdict:
    """Whether a zip closes an opening, and why; ``off_mm`` is what is cut away."""

    serves: bool
    why: Fact
    off_mm: float = 0.0


def zip_need(opening_mm: float, why: str, *, trimmed: str = BOTTOM) -> Need:
    """One zip for an opening; ``trimmed`` says at which end a longer one is cut.

    TOP where a waistband crosses its end (a fly, a skirt's placket): any zip is cut
    there, whatever its teeth. BOTTOM for a closed end: a coil gets a sewn stop. EXACT
    where it can be neither, as with an open end.
    """
    longer = value("zip_long") if trimmed else value("zip_short")
    return Need(
        kind=NotionKind.ZIP,
        why=why,
        count=1,
        size_mm=(opening_mm - value("zip_short"), opening_mm, opening_mm + longer),
        match_colour=True,
        trimmed=trimmed,
    )


def zip_serves(notion: Notion, opening_mm: float, trimmed: str = BOTTOM) -> ZipVerdict:
    """Whether this zip closes the opening.

    Cut at the top any zip can be shortened: the end stops are set anew or held by the
    band. At the bottom only a coil can, by a sewn stop; a metal or moulded one would
    have to lose its teeth there (sources in rules.csv, at zip_long and zip_tape_below).
    """
    if notion.size_mm is None:
        return ZipVerdict(False, fact("zip_length_unknown"))
    over = notion.size_mm - opening_mm
    if over < -value("zip_short"):
        return ZipVerdict(False, fact("zip_too_short", short_mm=-over))
    if over <= value("zip_short"):
        return ZipVerdict(True, fact("zip_right"))
    if trimmed == EXACT or (trimmed == BOTTOM and not notion.shortenable):
        return ZipVerdict(False, fact("zip_cannot_be_shortened", over_mm=over))
    if over > value("zip_long"):
        return ZipVerdict(False, fact("zip_wastes", over_mm=over))
    if trimmed == TOP:
        return ZipVerdict(True, fact("zip_cut_at_top", over_mm=over), over)
    below = value("zip_tape_below")
    return ZipVerdict(True, fact("zip_cut_at_bottom", over_mm=over, below_mm=below), over)


def zip_sold_mm(opening_mm: float, trimmed: str = BOTTOM) -> float:
    """The length to ask for in a shop: the shortest sold that serves (zips_sold.csv).

    Where it cannot be trimmed, the nearest sold. A longer opening than any sold takes
    the longest.
    """
    sold = zip_lengths_sold_mm()
    if trimmed == EXACT:
        return min(sold, key=lambda length: abs(length - opening_mm))
    least = opening_mm - value("zip_short")
    return next((length for length in sold if length >= least), sold[-1])


def zip_lengths_sold_mm() -> tuple[float, ...]:
    """Closed-end lengths sold in metric shops, shortest first."""
    return tuple(float(row["length_mm"]) for row in rows("zips_sold"))


def opening_least_mm(hip_mm: float, waist_mm: float) -> float:
    """The least opening that lets the hips through the waist (rule ``opening_hip_ease``)."""
    return max((hip_mm + value("opening_hip_ease") - waist_mm) / 2, 0.0)


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
