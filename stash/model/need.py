"""What a garment asks of cloth and notions."""

from __future__ import annotations

from dataclasses import dataclass

from stash.fact import Fact, fact
from stash.model.cloth import Construction
from stash.model.notions import NotionKind

SEWN_AT = frozenset({
    "all seams", "armholes", "as written on the pattern", "back lap", "both cuffs", "centre back",
    "collar stand and sleeves", "corded edge", "front", "front edges and neck",
    "front edges and reveres", "front opening", "front slit", "fused pieces",
    "handles", "heading", "left shoulder", "lower edge", "neck", "over the cord",
    "raw edges of the seams", "seam",
    "ties and neck loop", "top", "waist", "waistband",
})
"""Where drafts put a notion; each has a wording of its own, ``sewn_at_front_opening``."""


@dataclass(frozen=True, kw_only=True)
class ClothWants:
    """Hard limits and preferences for a garment's main cloth, with their source.

    ``mass_gsm`` is (least, most) that can serve at all, ``mass_best_gsm`` the range
    a maker would choose; up to ``mass_worn_gsm`` some published table still calls it
    everyday cloth; the stretch is what the draft relies on.
    """

    constructions: tuple[Construction, ...] = (Construction.WOVEN,)
    mass_gsm: tuple[float, float] = (0.0, 2000.0)
    mass_best_gsm: tuple[float, float] = (0.0, 2000.0)
    mass_worn_gsm: float | None = None
    stretch_across_pct: float = 0.0
    stretch_along_pct: float = 0.0
    opaque: bool = True
    source: str = "common practice, no source"


@dataclass(frozen=True, kw_only=True)
class Need:
    """One notion line of a garment: how many or how much, of what size, and why.

    ``why`` is one of SEWN_AT, or a part by the name that somebody gave it.
    ``count`` for counted kinds, ``length_mm`` for the others. ``size_mm`` is the
    (least, best, most) size that serves; ``group`` keeps cuff buttons apart from
    front buttons, and sewing thread from overlock thread, of which ``spools_at_once``
    run together, the hungriest giving ``most_each_mm``. ``trimmed`` is the end at which
    a longer zip is cut: "top" where a waistband crosses it, "bottom" for a closed coil,
    "" where it must be the very length.
    """

    kind: NotionKind
    why: str
    count: int | None = None
    length_mm: float | None = None
    size_mm: tuple[float, float, float] | None = None
    group: str = ""
    match_colour: bool = False
    fusible: bool | None = None
    spools_at_once: int = 1
    most_each_mm: float | None = None
    trimmed: str = "bottom"

    @property
    def reason(self) -> Fact:
        """Why it is needed, to be said."""
        if self.why in SEWN_AT:
            return fact(f"sewn_at_{self.why.replace(' ', '_')}")
        return fact("sewn_at_part", part=self.why)


@dataclass(frozen=True, kw_only=True)
class Closure:
    """A buttoned front, measured along the centre line from the neck down.

    ``length_mm`` is the stretch that buttons must hold, ``bust_mm`` where the
    fullest level crosses it, ``overlap_mm`` from centre line to finished edge.
    """

    length_mm: float
    bust_mm: float
    overlap_mm: float
    first_mm: float
    last_mm: float
