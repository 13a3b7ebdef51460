"""Cloth and the cuts of it: what a length of fabric is, and how much is here."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from stash.model.outline import Outline, SelvedgeLine


class Construction(StrEnum):
    """How the cloth is made."""

    WOVEN = "woven"
    KNIT = "knit"
    NONWOVEN = "nonwoven"


class ShrinkStatus(StrEnum):
    """How it is known what a cloth loses in the wash.

    ``SISTER``: measured on another cut of the same cloth; ``PRESUMED``: a published or
    common figure for cloth of its kind, never recorded as its own.
    """

    MEASURED = "measured"
    SISTER = "sister"
    PRESUMED = "presumed"
    NONE = "none"


REMNANT_MM = 150.0
"""A remnant worth a label takes a circle of this diameter: common practice, no source."""


@dataclass(frozen=True)
class FibreShare:
    """One fibre of the composition, by its name in Regulation (EU) 1007/2011 Annex I."""

    fibre: str
    percent: float


@dataclass(frozen=True, kw_only=True)
class Repeat:
    """Distances after which a print, stripe or check recurs; None where it does not."""

    lengthwise_mm: float | None = None
    crosswise_mm: float | None = None
    half_drop: bool = False


@dataclass(frozen=True, kw_only=True)
class Cloth:
    """A fabric and its properties; what is not known is None, never a guess.

    ``pile`` shades when it is turned. The shrinkage is what the first wash takes, in per
    cent; ``shrink_from`` is the code of the cut it was measured on. ``presumed`` names the
    fields that nobody read or measured, but that cloth called so usually has.
    """

    name: str
    construction: Construction | None = None
    fibres: tuple[FibreShare, ...] = ()
    mass_gsm: float | None = None
    one_way: bool = False
    pile: bool | None = None
    repeat: Repeat | None = None
    stretch_across_pct: float = 0.0
    stretch_along_pct: float = 0.0
    shrink_along_pct: float = 0.0
    shrink_across_pct: float = 0.0
    shrink_status: ShrinkStatus = ShrinkStatus.NONE
    shrink_from: str | None = None
    opaque: bool | None = None
    colours: tuple[str, ...] = ()
    care: str = ""
    dry_clean_only: bool | None = None
    price_minor_per_m: int | None = None
    notes: str = ""
    presumed: tuple[str, ...] = ()

    def told(self, **facts: Any) -> Cloth:
        """The cloth with facts that are known now, and presumed no longer."""
        still = tuple(name for name in self.presumed if name not in facts)
        return replace(self, **facts, presumed=still)

    @property
    def main_fibre(self) -> str:
        """The fibre there is most of; "" where its composition is not on record."""
        return max(self.fibres, key=lambda share: share.percent).fibre if self.fibres else ""

    def mass_g(self, area_mm2: float) -> float | None:
        """What so much of it weighs; None where its weight is not known."""
        return None if self.mass_gsm is None else area_mm2 / 1e6 * self.mass_gsm

    @property
    def shrink_known(self) -> bool:
        """Whether its shrinkage is on record; a record of old may have no status."""
        figures = self.shrink_along_pct or self.shrink_across_pct
        return bool(figures) or self.shrink_status is not ShrinkStatus.NONE


@dataclass(frozen=True, kw_only=True)
class Cut:
    """One physical piece of a cloth, with one label.

    ``outline`` is the usable cloth inside the selvedges as it lies now, flaws as
    holes. ``washed`` says whether the shrinkage has already happened. ``selvedges_mm`` are
    edges of a traced outline that are selvedge still: nothing is laid close to them.
    ``width_presumed``: its width is a usual one, or as a shop sells it; nobody measured it.
    """

    code: str
    cloth: Cloth
    outline: Outline
    washed: bool = False
    place: str | None = None
    acquired: str | None = None
    keep_for: str | None = None
    came_from: str | None = None
    selvedges_mm: tuple[SelvedgeLine, ...] = ()
    width_presumed: bool = False

    @property
    def length_mm(self) -> float:
        """Remaining length along the grain."""
        return self.outline.length_mm

    @property
    def width_mm(self) -> float:
        """Usable width."""
        return self.outline.width_mm

    @property
    def outline_washed(self) -> Outline:
        """The outline once washed: what pieces may be laid on."""
        if self.washed:
            return self.outline
        along, across = self._shares_washed
        return Outline(
            tuple((x * along, y * across) for x, y in self.outline.ring_mm),
            tuple(tuple((x * along, y * across) for x, y in h) for h in self.outline.holes_mm),
        )

    @property
    def selvedges_washed_mm(self) -> tuple[SelvedgeLine, ...]:
        """The selvedges in the frame of ``outline_washed``."""
        along, across = (1.0, 1.0) if self.washed else self._shares_washed
        return tuple(((x0 * along, y0 * across), (x1 * along, y1 * across))
                     for (x0, y0), (x1, y1) in self.selvedges_mm)

    @property
    def _shares_washed(self) -> tuple[float, float]:
        """What the wash leaves of a length along the grain, and of one across it."""
        return (1 - self.cloth.shrink_along_pct / 100, 1 - self.cloth.shrink_across_pct / 100)
