"""What ``fit`` answers: for each cut a verdict with its lay, or why it is set aside."""

from __future__ import annotations

from dataclasses import dataclass, field

from stash.lay import Verdict
from stash.match.cloth.suitability import Suitability
from stash.match.notions.wanted import Line
from stash.model import Cut, Lay, Piece
from stash.model.wire import lay_json, piece_json

# A large stash has hundreds of fits; nobody reads further than this.
MOST_TOLD = 200


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """One suitable cut. ``verdict`` None: not laid yet, because the time was up.

    ``spare_mm`` is the length left beyond the lay, ``short_mm`` how much more the best
    known lay would have needed; each None where the other applies or nothing is known.
    ``cost_m2`` orders the fits. ``held_by`` names the plans that hold part of the cut.
    """

    cut: Cut
    verdict: Verdict | None
    reason: str
    suitability: Suitability
    lay: Lay | None = None
    spare_mm: float | None = None
    short_mm: float | None = None
    cost_m2: float = float("inf")
    held_by: tuple[str, ...] = ()

    @property
    def fits(self) -> bool:
        """True when there is a lay."""
        return self.verdict is Verdict.FITS

    def to_json(self) -> dict:
        """The candidate; lengths in mm, the lay in the frame of the washed cloth."""
        return {
            "cut": self.cut.code,
            "name": self.cut.cloth.name,
            "fits": self.fits,
            "verdict": self.verdict.value if self.verdict else "not tried",
            "reason": self.reason,
            "spare_mm": self.spare_mm and round(self.spare_mm, 1),
            "short_mm": self.short_mm and round(self.short_mm, 1),
            "suitability": self.suitability.to_json(),
            "held_by": list(self.held_by),
            "outline": self.cut.outline_washed.to_json(),
            "lay": lay_json(self.lay) if self.lay else None,
        }


@dataclass(frozen=True, kw_only=True)
class SetAside:
    """A cut that cannot serve whatever its size, and why."""

    cut: Cut
    suitability: Suitability

    @property
    def reason(self) -> str:
        """The first and plainest reason."""
        return self.suitability.hard[0]

    def to_json(self) -> dict:
        """``{"cut", "name", "reason", "suitability"}``."""
        return {
            "cut": self.cut.code,
            "name": self.cut.cloth.name,
            "reason": self.reason,
            "suitability": self.suitability.to_json(),
        }


@dataclass(frozen=True, kw_only=True)
class Fit:
    """The whole answer: candidates best first, what was set aside, the notions.

    ``pieces`` are the ones the lays place; ``untried`` counts the suitable cuts that
    were not laid before the time was up.
    """

    pieces: tuple[Piece, ...]
    candidates: tuple[Candidate, ...]
    set_aside: tuple[SetAside, ...] = ()
    notions: tuple[Line, ...] = ()
    companions: tuple[Companion, ...] = field(default=())

    @property
    def fits(self) -> tuple[Candidate, ...]:
        """The candidates that fit, best first."""
        return tuple(c for c in self.candidates if c.fits)

    @property
    def untried(self) -> int:
        """How many suitable cuts were not laid."""
        return sum(c.verdict is None for c in self.candidates)

    def to_json(self) -> dict:
        """The stable shape other programs read."""
        return {
            "candidates": [c.to_json() for c in self.candidates if c.verdict][:MOST_TOLD],
            "set_aside": [s.to_json() for s in self.set_aside],
            "missing_notions": [n.to_json() for n in self.notions if not n.chosen],
            "notions": [n.to_json() for n in self.notions if n.chosen],
            "companions": [c.to_json() for c in self.companions],
            "untried": self.untried,
            "pieces": [piece_json(piece) for piece in self.pieces],
        }


@dataclass(frozen=True, kw_only=True)
class Companion:
    """The lining or contrast cut beside the main cloth; ``cut`` None when none serves."""

    role: str
    cut: Cut | None
    reason: str
    pieces: tuple[Piece, ...]
    lay: Lay | None = None

    def to_json(self) -> dict:
        """``{"role", "cut", "reason", "lay", "pieces"}``."""
        return {
            "role": self.role,
            "cut": self.cut and self.cut.code,
            "reason": self.reason,
            "lay": lay_json(self.lay) if self.lay else None,
            "pieces": [piece_json(piece) for piece in self.pieces],
        }
