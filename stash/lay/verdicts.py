"""The three answers to the question whether everything comes out of a cloth."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import ClassVar

from stash.fact import Fact, fact
from stash.model import Lay


class Verdict(StrEnum):
    """The kinds of answer in words."""

    FITS = "fits"
    IMPOSSIBLE = "impossible"
    NOT_FOUND = "not found"


class _Told:
    """What every answer can say of itself."""

    kind: ClassVar[str]
    verdict: ClassVar[Verdict]
    sweeps: int
    short_mm: float | None

    @property
    def told(self) -> Fact:
        """What is known, as a fact."""
        raise NotImplementedError

    def to_json(self) -> dict[str, object]:
        """``{"kind": "fits" | "impossible" | "not_found", "short_mm", "because": {fact}}``."""
        return {"kind": self.kind, "short_mm": self.short_mm, "because": self.told.to_json()}


@dataclass(frozen=True, kw_only=True)
class LayFound(_Told):
    """Everything fits: the lay, and the length of cloth it takes from where the cut begins."""

    kind: ClassVar[str] = "fits"
    verdict: ClassVar[Verdict] = Verdict.FITS

    lay: Lay
    used_mm: float
    sweeps: int = 0
    short_mm: None = field(default=None, init=False)

    @property
    def told(self) -> Fact:
        """How much cloth it takes."""
        return fact("everything_fits", used_mm=self.used_mm)


@dataclass(frozen=True, kw_only=True)
class NoLayPossible(_Told):
    """No lay can fit, and the proof of it.

    ``short_mm``: how much more length the best known lay off the roll would take, None
    when length alone would not do or was not looked into.
    """

    kind: ClassVar[str] = "impossible"
    verdict: ClassVar[Verdict] = Verdict.IMPOSSIBLE
    lay: ClassVar[None] = None

    proof: Fact
    short_mm: float | None = None
    sweeps: int = 0

    @property
    def told(self) -> Fact:
        """The proof."""
        return self.proof


@dataclass(frozen=True, kw_only=True)
class NoLayFound(_Told):
    """None was found in the time given, which proves nothing; ``short_mm`` as for a proof."""

    kind: ClassVar[str] = "not_found"
    verdict: ClassVar[Verdict] = Verdict.NOT_FOUND
    lay: ClassVar[None] = None

    because: Fact
    short_mm: float | None = None
    sweeps: int = 0

    @property
    def told(self) -> Fact:
        """Why there is none, as far as is known."""
        return self.because


LayAnswer = LayFound | NoLayPossible | NoLayFound
