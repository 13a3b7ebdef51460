"""What a garment's seams ask for: stitching by class, finished raw edges, thread, binding.

Stitch classes are ISO 4915's: 301 lockstitch, 304 zigzag, 504 three-thread overlock.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.model import Need, Seam
from stash.notions.binding import binding_need
from stash.notions.thread import thread_needs

# Turned under and stitched, or bound: a row of lockstitch along each edge.
FINISH_STITCH = {
    "overlock": "504", "overlock-4": "514", "zigzag": "304", "turned": "301", "bound": "301",
}
BINDING_SHOWS_MM = 8.0


@dataclass(frozen=True)
class Join:
    """A seam ``length_mm`` long, sewn ``count`` times, with ``raw_edges`` to finish each time."""

    name: str
    length_mm: float
    count: int = 1
    raw_edges: int = 2


def seams(joins: Sequence[Join], finish: str) -> tuple[Seam, ...]:
    """The lines of stitching: each seam, and its raw edges finished."""
    sewn: list[Seam] = []
    for j in joins:
        sewn.append(Seam(j.name, j.length_mm * j.count))
        if j.raw_edges:
            edges_mm = j.length_mm * j.count * j.raw_edges
            sewn.append(Seam(f"{j.name}, raw edges", edges_mm, FINISH_STITCH[finish]))
    return tuple(sewn)


def sewing_needs(joins: Sequence[Join], finish: str, *, buttonholes: int = 0) -> tuple[Need, ...]:
    """Thread for all of it, and binding when the raw edges are bound."""
    needs = [*thread_needs(seams(joins, finish), buttonholes=buttonholes)]
    if finish == "bound":
        edges_mm = sum(j.length_mm * j.count * j.raw_edges for j in joins)
        needs.append(binding_need(edges_mm, BINDING_SHOWS_MM, "raw edges of the seams"))
    return tuple(needs)
