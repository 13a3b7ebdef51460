"""Lays off the roll, remembered by width: what many cuts of one width ask is asked once."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from stash.lay import Budget, LayAnswer, LayFound, LayTask, shortest
from stash.model import Outline, Piece, Repeat, Spread

# Widths are rounded down to this: a lay for a narrower cloth is good on a wider one.
STEP_MM = 2.0
# Sweeps of a lay that is wanted almost at once: they cost little more than the first
# fill and take off most of what a search could (measured: docs/match.md).
QUICK_SWEEPS = 100
# Whether the cloth is one-way, and the repeat of its print.
StripKind = tuple[bool, Repeat | None]


@dataclass(frozen=True, kw_only=True)
class Table:
    """How the maker lays and cuts: margins, spread and what she allows the grain."""

    spread: Spread | None = Spread.OPEN
    clearance_mm: float = 0.0
    edge_mm: float = 0.0
    off_grain_deg: float = 0.0

    def task(
        self,
        pieces: tuple[Piece, ...],
        *,
        cloth: Outline | None = None,
        width_mm: float | None = None,
        one_way: bool = False,
        repeat: Repeat | None = None,
    ) -> LayTask:
        """The lay task with these habits."""
        return LayTask(
            pieces=pieces, cloth=cloth, width_mm=width_mm, one_way=one_way, repeat=repeat,
            spread=self.spread, clearance_mm=self.clearance_mm, edge_mm=self.edge_mm,
            off_grain_deg=self.off_grain_deg,
        )


class Strips:
    """The shortest strips known for one set of pieces, by width, direction and repeat."""

    def __init__(
        self, pieces: tuple[Piece, ...], table: Table, *, seed: int = 1, step_mm: float = STEP_MM
    ):
        self.pieces = pieces
        self.table = table
        self.seed = seed
        self.step_mm = step_mm
        self._asked: dict[tuple[str, float, StripKind], LayAnswer] = {}
        self._shortest: dict[StripKind, list[tuple[float, LayFound]]] = {}

    def first(
        self, width_mm: float, *, one_way: bool = False, repeat: Repeat | None = None
    ) -> LayAnswer:
        """A strip lay on this width almost at once; remembered."""
        budget = Budget(seed=self.seed, iterations=QUICK_SWEEPS)
        return self._ask("first", width_mm, (one_way, repeat), budget)

    def best(
        self, width_mm: float, budget: Budget, *, one_way: bool = False,
        repeat: Repeat | None = None,
    ) -> LayAnswer:
        """The strip searched for as long as ``budget`` allows; never longer than one known."""
        return self._ask("best", width_mm, (one_way, repeat), budget)

    def known(
        self, width_mm: float, *, one_way: bool = False, repeat: Repeat | None = None
    ) -> LayFound | None:
        """The shortest lay known that lies on this width.

        It may be one for narrower cloth, or one for one-way cloth where this is not.
        """
        if self.table.spread is not Spread.OPEN:
            return None
        kinds: list[StripKind] = [(one_way, repeat)]
        if not one_way:
            kinds.append((True, repeat))
        narrower = [
            answer for kind in kinds for width, answer in self._shortest.get(kind, ())
            if width <= width_mm + 1e-6
        ]
        return min(narrower, key=lambda a: a.lay.length_mm, default=None)

    def _ask(self, how: str, width_mm: float, cloth: StripKind, budget: Budget) -> LayAnswer:
        width = floor(width_mm / self.step_mm + 1e-6) * self.step_mm if self.step_mm else width_mm
        key = (how, width, cloth)
        if key not in self._asked:
            one_way, repeat = cloth
            task = self.table.task(self.pieces, width_mm=width, one_way=one_way, repeat=repeat)
            answer = self._asked[key] = shortest(task, budget)
            if isinstance(answer, LayFound):
                self._shortest.setdefault(cloth, []).append((width, answer))
        own = self._asked[key]
        known = self.known(width_mm, one_way=cloth[0], repeat=cloth[1])
        if known and (not own.lay or known.lay.length_mm < own.lay.length_mm):
            return known
        return own


def at_origin(outline: Outline) -> Outline:
    """The outline moved so that its bounding box begins at (0, 0)."""
    left, low, _, _ = outline.bounds_mm
    if not left and not low:
        return outline
    return Outline(
        tuple((x - left, y - low) for x, y in outline.ring_mm),
        tuple(tuple((x - left, y - low) for x, y in hole) for hole in outline.holes_mm),
    )
