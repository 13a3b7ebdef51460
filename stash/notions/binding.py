"""Bias binding: the strip an edge takes, and the cloth that gives the strip."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, sqrt

from stash.errors import InvalidInput
from stash.model import Need, NotionKind
from stash.notions.rules import value


@dataclass(frozen=True)
class BiasCut:
    """Strips cut at 45 degrees right across a cloth and joined on the straight grain.

    ``cloth_length_mm`` is the length of cloth cut into, ``area_mm2`` the strips alone.
    """

    strips: int
    joins: int
    cloth_length_mm: float
    area_mm2: float


def binding_length_mm(edges_mm: float) -> float:
    """Strip for a total length of edge, with what the ends turn in."""
    return edges_mm + value("binding_spare")


def strip_width_mm(finished_mm: float) -> float:
    """Width to cut for a single binding that shows ``finished_mm``."""
    return finished_mm * value("binding_single")


def bias_strips(length_mm: float, strip_mm: float, cloth_width_mm: float) -> BiasCut:
    """Strips of ``strip_mm`` that, joined, give ``length_mm`` of binding.

    A strip between the two edges of the cloth is a parallelogram, cloth width x sqrt 2
    long; every join takes both allowances along the strip (x sqrt 2) and
    squaring the two far ends takes one strip width. Each strip uses its width x sqrt 2
    of the edge, and the slant itself one cloth width. Arithmetic, no source needed.
    """
    if min(length_mm, strip_mm) <= 0 or cloth_width_mm <= 2 * strip_mm:
        raise InvalidInput("bias_cloth_too_narrow", field="width")
    slant = cloth_width_mm * sqrt(2)
    join = 2 * value("binding_joint") * sqrt(2)
    strips = max(1, ceil((length_mm + strip_mm - join) / (slant - join) - 1e-9))
    return BiasCut(
        strips, strips - 1, cloth_width_mm + strips * strip_mm * sqrt(2), strips * slant * strip_mm
    )


def binding_need(edges_mm: float, finished_mm: float, why: str) -> Need:
    """Bought or home-cut binding for these edges, by its finished width."""
    return Need(
        kind=NotionKind.BINDING,
        why=why,
        length_mm=binding_length_mm(edges_mm),
        size_mm=(finished_mm * 0.75, finished_mm, finished_mm * 1.5),
        match_colour=True,
    )
