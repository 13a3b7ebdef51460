"""Cloth and the cuts of it: what a length of fabric is, and how much is here."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stash.model.outline import Outline


class Construction(StrEnum):
    """How the cloth is made."""

    WOVEN = "woven"
    KNIT = "knit"
    NONWOVEN = "nonwoven"


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
    """A fabric and its properties; what is not known is None, never a guess."""

    name: str
    construction: Construction = Construction.WOVEN
    fibres: tuple[FibreShare, ...] = ()
    mass_gsm: float | None = None
    one_way: bool = False
    repeat: Repeat | None = None
    stretch_across_pct: float = 0.0
    stretch_along_pct: float = 0.0
    shrink_along_pct: float = 0.0
    shrink_across_pct: float = 0.0
    opaque: bool | None = None
    colours: tuple[str, ...] = ()
    care: str = ""
    price_minor_per_m: int | None = None
    notes: str = ""


@dataclass(frozen=True, kw_only=True)
class Cut:
    """One physical piece of a cloth, with one label.

    ``outline`` is the usable cloth inside the selvedges as it lies now, flaws as
    holes. ``washed`` says whether the shrinkage has already happened.
    """

    code: str
    cloth: Cloth
    outline: Outline
    washed: bool = False
    place: str | None = None
    acquired: str | None = None
    keep_for: str | None = None
    came_from: str | None = None

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
        along = 1 - self.cloth.shrink_along_pct / 100
        across = 1 - self.cloth.shrink_across_pct / 100
        return Outline(
            tuple((x * along, y * across) for x, y in self.outline.ring_mm),
            tuple(tuple((x * along, y * across) for x, y in h) for h in self.outline.holes_mm),
        )
