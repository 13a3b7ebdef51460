"""Elastic and cord in a casing."""

from __future__ import annotations

from stash.errors import InvalidInput
from stash.model import Need, NotionKind
from stash.notions.rules import value

WIDTHS_MM = (6.0, 10.0, 12.0, 20.0, 25.0, 32.0, 38.0, 50.0)
"""Widths elastic is sold in: common practice, no source."""


def elastic_cut_mm(waist_mm: float, *, tight: bool = False) -> float:
    """Length to cut for a pulled-on waist, overlap for joining included.

    The published waist minus 5 cm; ``tight`` is the closer fit of common practice: 15 %
    off, kept so that the whole length stays in waist minus 10 to 15 cm.
    """
    off = value("waist_elastic_off")
    if tight:
        off = value("waist_elastic_tight_share") * waist_mm
        off = max(off, value("waist_elastic_tight_least_off"))
        off = min(off, value("waist_elastic_tight_most_off"))
    if waist_mm <= 2 * off:
        raise InvalidInput("waist_too_small_for_elastic", waist_mm=waist_mm, field="waist")
    return waist_mm - off + value("elastic_overlap")


def elastic_widths_mm(casing_mm: float) -> tuple[float, float, float]:
    """(least, best, most) width of elastic for the finished depth of a casing."""
    if casing_mm <= value("casing_ease"):
        raise InvalidInput("casing_takes_no_elastic", casing_mm=casing_mm, field="casing")
    return (
        max(casing_mm - value("casing_ease_most"), WIDTHS_MM[0] / 2),
        casing_mm - value("casing_ease"),
        casing_mm - value("casing_ease_least"),
    )


def casing_mm(elastic_mm: float) -> float:
    """Finished depth of a casing for elastic of this width."""
    return elastic_mm + value("casing_ease")


def casing_allowance_mm(elastic_mm: float) -> float:
    """What a fold-down casing adds to the cutting outline: its depth and the turned edge."""
    return casing_mm(elastic_mm) + value("casing_turn")


def elastic_need(
    waist_mm: float, casing_depth_mm: float, why: str = "waist", *, tight: bool = False
) -> Need:
    """Elastic for a pulled-on waist in a casing of this finished depth."""
    return Need(
        kind=NotionKind.ELASTIC,
        why=why,
        length_mm=elastic_cut_mm(waist_mm, tight=tight),
        size_mm=elastic_widths_mm(casing_depth_mm),
    )


def elastic_length_need(length_mm: float, casing_depth_mm: float, why: str) -> Need:
    """Elastic of a stated finished length: a cuff, a leg, the back of a waistband."""
    return Need(
        kind=NotionKind.ELASTIC,
        why=why,
        length_mm=length_mm + value("elastic_overlap"),
        size_mm=elastic_widths_mm(casing_depth_mm),
    )


def cord_need(casing_length_mm: float, casing_depth_mm: float, why: str) -> Need:
    """A cord that runs once through a casing and hangs out at both ends."""
    most = casing_depth_mm - value("cord_casing_ease")
    return Need(
        kind=NotionKind.CORD,
        why=why,
        length_mm=casing_length_mm + 2 * value("cord_beyond_opening"),
        size_mm=(most / 4, most / 2, most),
    )
