"""A knit top that opens on one shoulder, where a head would else want too wide a neck.

A child's head is large beside its shoulders: Scandinavian children's tables have it at 47 cm round
on a chest of 51 (head girths there from memory). Sizes are common practice, no source.
"""

from __future__ import annotations

from typing import Literal

from stash.draft.geometry import line
from stash.draft.panel import Cutting, Panel
from stash.draft.rectangle import Turnings, rectangle
from stash.fact import Fact, fact
from stash.model import Joined, Mark, MarkKind, Need, Part
from stash.notions.fastenings import snap_need

ShoulderOpening = Literal["as needed", "none", "left"]
LAP_MM, SNAP_MM = 15.0, 9.0  # how far the back laps under the front; common practice, no source
# Of a shoulder: a neck that takes more slips off it. Common practice, no source.
MOST_TAKEN = 0.25


def opens(chosen: str, taken_share: float) -> bool:
    """Whether the left shoulder opens: as chosen, else where the neck would take too much of it."""
    return chosen == "left" or (chosen == "as needed" and taken_share > MOST_TAKEN)


def shoulder_bands(shoulder_mm: float, seam: float) -> list[Panel]:
    """Two strips: one faces the front's edge, one is folded to lap under it at the back."""
    band = rectangle(
        "shoulder band", (shoulder_mm, 2 * LAP_MM), Turnings(seam, seam, seam),
        Cutting(quantity=2, part=Part.BAND),
    ).marked((Mark(MarkKind.FOLD, line((0.0, LAP_MM), (shoulder_mm, LAP_MM))),))
    return [band, band.fused("shoulder band interfacing", 2)]


def band_meetings(shoulder_mm: float) -> list[Joined]:
    """Each strip along the open shoulder of front and back."""
    return [
        Joined(("shoulder band", "side"), (name, "shoulder"), shoulder_mm, shoulder_mm)
        for name in ("front", "back")
    ]


def snaps(shoulder_mm: float) -> Need:
    """Snaps along the opening, one on the neckband."""
    return snap_need(shoulder_mm, "left shoulder", diameter_mm=SNAP_MM)


def passes(around_mm: float, head_mm: float, *, opened: bool) -> Fact:
    """How wide the neck stretches, beside the head that it passes over."""
    kind = "neck_opens_for_head" if opened else "neck_stretches_over_head"
    return fact(kind, around_measure_mm=around_mm, head_measure_mm=head_mm)
