"""Pockets: patched on, or a bag set in the side seam.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from stash.draft.cutting_line import Edge
from stash.draft.geometry import curve, join, line
from stash.draft.panel import Cutting, Panel
from stash.model import Mark, MarkKind, Part, Point

# Common practice, no source, where none is named.
POCKET_HEM_MM = 25.0


def patch_pocket(
    name: str, width_mm: float, depth_mm: float, seam_mm: float, *, quantity: int = 1
) -> Panel:
    """A patch with two cut corners; its top is turned down 25 mm."""
    tip = 0.15 * depth_mm
    edges = (
        Edge("top", line((0.0, 0.0), (0.0, width_mm)), POCKET_HEM_MM, turned=True),
        Edge(
            "sides",
            line(
                (0.0, width_mm), (depth_mm - tip, width_mm), (depth_mm, 0.8 * width_mm),
                (depth_mm, 0.2 * width_mm), (depth_mm - tip, 0.0), (0.0, 0.0),
            ),
            min(seam_mm, 10.0),
        ),
    )
    return Panel(name=name, edges=edges, cutting=Cutting(quantity=quantity, part=Part.POCKET))


def pocket_mark(corner: Point, width_mm: float, depth_mm: float) -> Mark:
    """Where a patch is sewn on: its finished sides from its upper corner round to the other."""
    x, y = corner
    return Mark(
        MarkKind.POCKET,
        ((x, y), (x + depth_mm, y), (x + depth_mm, y + width_mm), (x, y + width_mm), (x, y)),
    )


def side_pocket_bag(name: str, opening_mm: float, seam_mm: float) -> Panel:
    """Half of a bag, cut four times: its opening lies on the side seam."""
    deep, wide = 1.75 * opening_mm, 0.95 * opening_mm
    foot, corner = (1.15 * opening_mm, 0.0), (0.0, 0.75 * wide)
    round_end = curve((0.8 * deep, wide), (deep, wide), (deep, 0.3 * wide), foot)
    edges = (
        Edge("opening", line(foot, (0.0, 0.0)), seam_mm),
        Edge("top", line((0.0, 0.0), corner), seam_mm),
        Edge("bag", join(line(corner, (0.8 * deep, wide)), round_end), seam_mm),
    )
    return Panel(name=name, edges=edges, cutting=Cutting(quantity=4, pair=True, part=Part.POCKET))
