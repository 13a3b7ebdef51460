"""What ``fit`` answers: for each cut a verdict with its lay, or why it is set aside."""

from __future__ import annotations

from dataclasses import dataclass, field

from stash.fact import Fact, Term, fact
from stash.match.cloth.hangs_on import on_the_wash, on_the_width
from stash.match.cloth.suitability import Suitability
from stash.match.fit.cut_verdicts import CutVerdict, Fits, NotTried
from stash.match.gather import DraftedGarment
from stash.model import Cut, Laid, Piece, Role


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """One suitable cut; ``held_by`` names the plans that hold part of it."""

    cut: Cut
    suitability: Suitability
    verdict: CutVerdict = NotTried()
    held_by: tuple[str, ...] = ()

    @property
    def fits(self) -> bool:
        """True when there is a lay."""
        return isinstance(self.verdict, Fits)

    @property
    def tried(self) -> bool:
        """False while the cut was not looked at."""
        return not isinstance(self.verdict, NotTried)

    @property
    def laid(self) -> Laid | None:
        """The lay of a cut that fits."""
        return self.verdict.laid if isinstance(self.verdict, Fits) else None

    @property
    def hangs_on(self) -> tuple[Fact, ...]:
        """The presumed figures that decide the verdict, each with what would settle it."""
        verdict = self.verdict
        width = on_the_width(self.cut, self.laid, self.short_mm)
        if not isinstance(verdict, Fits):
            return (*self.suitability.hangs_on, *width)
        wash = on_the_wash(self.cut, verdict.laid, unwashed=verdict.unwashed)
        return (*self.suitability.hangs_on, *wash, *width)

    @property
    def short_mm(self) -> float | None:
        """How much longer the shortest lay known is than a cut that does not serve."""
        return self.verdict.short_mm

    @property
    def cost_m2(self) -> float:
        """What orders the fits."""
        return self.verdict.cost.total_m2 if isinstance(self.verdict, Fits) else float("inf")


@dataclass(frozen=True, kw_only=True)
class SetAside:
    """A cut that cannot serve whatever its size, and why."""

    cut: Cut
    suitability: Suitability


@dataclass(frozen=True, kw_only=True)
class RoleLine:
    """One kind of cloth a garment asks for beside the main one, and the cut that gives it.

    ``laid`` None: no cut in the stash serves.
    """

    role: Role
    pieces: tuple[Piece, ...]
    laid: Laid | None = None
    suitability: Suitability = Suitability()

    @property
    def cut(self) -> Cut | None:
        """The cut that gives it."""
        return self.laid.cut if self.laid else None

    @property
    def told(self) -> tuple[Fact, ...]:
        """Which cut gives it and what there is to say against that, or that none does."""
        if self.laid is None:
            return (fact("no_cut_serves_as", role=Term(self.role.value)),)
        goes = fact("goes_with_it", cloth=self.laid.cut.cloth.name)
        return (goes, *self.suitability.soft)


@dataclass(frozen=True, kw_only=True)
class Fit:
    """The whole answer: candidates best first, what was set aside.

    ``pieces`` are the ones the lays place.
    """

    garments: tuple[DraftedGarment, ...]
    pieces: tuple[Piece, ...]
    candidates: tuple[Candidate, ...]
    set_aside: tuple[SetAside, ...] = ()
    roles: tuple[RoleLine, ...] = field(default=())

    @property
    def fits(self) -> tuple[Candidate, ...]:
        """The candidates that fit, best first."""
        return tuple(c for c in self.candidates if c.fits)

    @property
    def misses(self) -> tuple[Candidate, ...]:
        """The candidates that were tried and do not fit, nearest first."""
        return tuple(c for c in self.candidates if c.tried and not c.fits)

    @property
    def untried(self) -> int:
        """How many suitable cuts were not laid."""
        return sum(not c.tried for c in self.candidates)
