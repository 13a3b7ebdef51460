"""How much smaller than the body a knit is cut: by how far its cloth stretches across.

Nothing is taken off up to 20 % of stretch; cloth that stretches by 40 % takes 10 % off girths,
never off lengths (stitchpaperscissors.com: up to 10 % off horizontal measures only; the two
stretches are common practice, no source). A closer leg is cut on cloth that stretches further,
since a published block came out far too wide on 60 to 70 % (suzannealise.com, 2021).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, get_args

from stash.draft.garment import Sewn, choice, measure
from stash.draft.geometry import Path, length
from stash.draft.sewing import Join
from stash.fact import Fact, fact
from stash.model import ClothWants, Need, Seam
from stash.notions.thread import thread_needs

FREE_PCT, OFF_PER_PCT = 20.0, 0.5  # common practice, no source
KNIT_SEAM_MM = 10.0  # common practice, no source
HEM_STITCH = "304"

KnitStretch = Literal["presumed", "20", "25", "30", "40", "50", "60", "80", "100"]
AlongStretch = Literal["presumed", "0", "5", "10", "15"]
KnitFinish = Literal["overlock-4", "overlock", "zigzag"]
STITCH = {"overlock-4": "514", "overlock": "504", "zigzag": "304"}


@dataclass(frozen=True, kw_only=True)
class KnitOptions(Sewn):
    """Options of what is cut from knitted cloth."""

    stretch: KnitStretch = choice(
        KnitStretch, "how far the cloth stretches across, in per cent of its width"
    )
    seam: float = measure("seam allowance", 0, 30, KNIT_SEAM_MM)
    finish: KnitFinish = choice(KnitFinish, "the stitch of seams that stretch")


@dataclass(frozen=True)
class Stretched:
    """How far the cloth stretches, whether that is presumed, and how much smaller girths are."""

    pct: float
    presumed: bool
    share: float

    def girth(self, body_mm: float) -> float:
        """A girth of the body as it is cut."""
        return body_mm * self.share


def stretched(options: KnitOptions, presumed_pct: float, most_off_pct: float) -> Stretched:
    """From what is chosen, or from what is presumed of cloth that is usual for the garment."""
    presumed = options.stretch == "presumed"
    pct = presumed_pct if presumed else float(options.stretch)
    return Stretched(pct, presumed, 1 - off_pct(pct, most_off_pct) / 100)


def stretch_word(measured_pct: float, words: object = KnitStretch) -> str | None:
    """The stretch to draft for on cloth that was measured: never more than it has; None where that
    is too little for any, or not on record.
    """
    known = [w for w in get_args(words) if w != "presumed" and float(w) <= measured_pct]
    return max(known, key=float, default=None) if measured_pct else None


def off_pct(stretch_pct: float, most_pct: float) -> float:
    """What is taken off girths, per cent."""
    return min(max((stretch_pct - FREE_PCT) * OFF_PER_PCT, 0.0), most_pct)


def asked(s: Stretched) -> tuple[Fact, ...]:
    """The question where the stretch is only presumed, with where the figure comes from."""
    if not s.presumed:
        return (fact("cut_for_stretch", stretch_pct=s.pct),)
    return (fact("stretch_presumed", stretch_pct=s.pct),)


def along_pct(chosen: str, presumed_pct: float) -> float:
    """How much of the cloth's stretch lengthwise is counted on: what is chosen or was measured,
    never more than the most that can be chosen; else what is presumed.
    """
    return presumed_pct if chosen == "presumed" else float(chosen)


def along_asked(chosen: str, presumed_pct: float) -> tuple[Fact, ...]:
    """What is said of the stretch lengthwise, and the question where it is only presumed."""
    kind = "stretch_along_presumed" if chosen == "presumed" else "cut_for_stretch_along"
    return (fact(kind, stretch_pct=along_pct(chosen, presumed_pct)),)


def wants_stretch(wants: ClothWants, s: Stretched, along_pct: float = 0.0) -> ClothWants:
    """What the garment asks of its cloth, with the stretch that the draft relies on."""
    return replace(wants, stretch_across_pct=s.pct, stretch_along_pct=along_pct)


def knit_seams(joins: list[Join], finish: str) -> tuple[Seam, ...]:
    """Each seam in one row that stretches; hems in zigzag."""
    return tuple(
        Seam(j.name, j.length_mm * j.count, STITCH[finish] if j.raw_edges else HEM_STITCH)
        for j in joins if j.length_mm * j.count > 0
    )


def knit_thread(joins: list[Join], finish: str) -> tuple[Need, ...]:
    """Thread for all of it."""
    return tuple(thread_needs(knit_seams(joins, finish)))


def around(*paths: Path) -> float:
    """Both sides of half edges."""
    return 2 * sum(map(length, paths))
