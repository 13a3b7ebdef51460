"""What is said of one cut: it fits with its lay, it cannot with its proof, or none was found.

The numbers mean the same wherever they are told. ``spare_mm`` is the length of the cut
beyond the lay. ``short_mm`` is how much longer than the cut the shortest lay known on its
width is, in whole millimetres rounded up; None where length is not what is missing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from stash.fact import Fact, fact
from stash.match.fit.ranking import Cost
from stash.model import Laid

NOTHING_MM = 1.0


@dataclass(frozen=True, kw_only=True)
class Fits:
    """Everything comes out of it. ``unwashed``: only as it lies, for the wash would undo it."""

    kind: ClassVar[str] = "fits"
    short_mm: ClassVar[None] = None

    laid: Laid
    cost: Cost
    unwashed: bool = False

    @property
    def spare_mm(self) -> float:
        """Length beyond the lay."""
        return self.laid.spare_mm

    @property
    def told(self) -> Fact:
        """How much is to spare, and on what condition."""
        spare = self.spare_mm
        if self.unwashed:
            return fact("fits_only_unwashed", spare_mm=spare)
        return fact("fits", spare_mm=spare) if spare >= NOTHING_MM else fact("fits_exactly")


@dataclass(frozen=True, kw_only=True)
class Impossible:
    """No lay can fit; ``proof`` is the plainest one, None where no one will read it."""

    kind: ClassVar[str] = "impossible"

    proof: Fact | None = None
    short_mm: float | None = None

    @property
    def told(self) -> Fact:
        """Why it cannot be."""
        return self.proof or fact("too_small")


@dataclass(frozen=True, kw_only=True)
class NoneFound:
    """No lay was found in the time given, which proves nothing."""

    kind: ClassVar[str] = "not_found"

    short_mm: float | None = None
    because: Fact | None = None

    @property
    def told(self) -> Fact:
        """What is known of the miss."""
        if self.short_mm:
            return fact("no_lay_short", short_mm=self.short_mm)
        return self.because or fact("no_lay_on_this_shape")


@dataclass(frozen=True, kw_only=True)
class NotTried:
    """The time was up before it was laid."""

    kind: ClassVar[str] = "not_tried"
    short_mm: ClassVar[None] = None

    @property
    def told(self) -> Fact:
        """That nothing is known."""
        return fact("not_laid_yet")


@dataclass(frozen=True, kw_only=True)
class NotJudged:
    """The cut could not be judged; ``because`` says what is in the way."""

    kind: ClassVar[str] = "not_judged"
    short_mm: ClassVar[None] = None

    because: Fact

    @property
    def told(self) -> Fact:
        """What is in the way."""
        return self.because


CutVerdict = Fits | Impossible | NoneFound | NotTried | NotJudged
