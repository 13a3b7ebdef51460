"""The values tried on one cut: drafted once for all cuts, screened, laid."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import floor, log2

from stash.lay import Budget, LayFound, LayTask, screen, solve, solve_from
from stash.match.far.growing import Growing
from stash.match.fit.question import Stop
from stash.match.gather import area_mm2 as sum_mm2
from stash.match.strip_lays import Table, at_origin
from stash.model import Cut, Lay, Piece

# Sweeps of one try from nothing: five times as many find no more in nine cases of ten.
SWEEPS = 1500
GUESSES = 5


@dataclass(frozen=True, kw_only=True)
class Grown:
    """A value with its lay, which begins where its cut begins."""

    value: float
    lay: Lay
    pieces: tuple[Piece, ...]


@dataclass
class Drafted:
    """What grows, each value drafted once, whichever cut asks for it."""

    growing: Growing
    known: dict[float, tuple[Piece, ...] | None] = field(default_factory=dict)

    def on_step(self, value: float) -> float:
        """The value as it can be chosen: a whole number of steps, inside the range."""
        g = self.growing
        value = round(value / g.step) * g.step
        return min(max(value, g.least), g.most)

    def between(self, low: float, high: float) -> float:
        """A value near the middle, as round as can be, so that other cuts ask for it too."""
        g = self.growing
        span = (high - low) / g.step
        grain = g.step * 2 ** max(0, floor(log2(max(span, 1.0) / 2)))
        value = round((low + high) / 2 / grain) * grain
        return value if low < value < high else self.on_step((low + high) / 2)

    def filling(self, area_mm2: float) -> float:
        """About the largest value whose pieces have no more than this area together."""
        low, high = self.growing.least, self.growing.most
        for _ in range(GUESSES):
            middle = self.between(low, high)
            pieces = self.pieces(middle)
            if pieces is not None and sum_mm2(pieces) <= area_mm2:
                low = middle
            else:
                high = middle
        return low

    def pieces(self, value: float) -> tuple[Piece, ...] | None:
        """The pieces, or None where the draft refuses."""
        if value not in self.known:
            self.known[value] = self.growing.pieces(value)
        return self.known[value]


@dataclass
class Tries:
    """Every value tried on one cut. ``failed``: what was short, by the value."""

    drafted: Drafted
    cut: Cut
    table: Table
    failed: dict[float, float] = field(default_factory=dict)

    def open(self, value: float) -> bool:
        """True when it can be drafted and the screen does not refute it."""
        return self.drafted.pieces(value) is not None and not self.refuted(value)

    def refuted(self, value: float) -> bool:
        """True when the screen proves that this value has no lay."""
        pieces = self.drafted.pieces(value)
        return pieces is not None and screen(self.task(pieces)) is not None

    def lay(self, value: float, stop: Stop, seed: int = 1) -> Grown | None:
        """A lay at this value, searched for from nothing; remembers what was short."""
        pieces = self.drafted.pieces(value)
        if pieces is None:
            return None
        answer = solve(self.task(pieces), Budget(seed=seed, iterations=SWEEPS, stop=stop))
        if not isinstance(answer, LayFound):
            self.failed[value] = answer.short_mm or 0.0
            return None
        return Grown(value=value, lay=answer.lay, pieces=pieces)

    def lay_from(
        self, before: Grown, value: float, stop: Stop, *, seed: int = 1, sweeps: int | None = None
    ) -> Grown | None:
        """A lay at this value, begun from the one of another."""
        pieces = self.drafted.pieces(value)
        if pieces is None:
            return None
        budget = Budget(seed=seed, iterations=sweeps, stop=stop)
        answer = solve_from(self.task(pieces), before.lay, budget)
        if not isinstance(answer, LayFound):
            return None
        return Grown(value=value, lay=answer.lay, pieces=pieces)

    def task(self, pieces: tuple[Piece, ...]) -> LayTask:
        """The lay of these pieces on this cut, its outline moved to the origin."""
        cloth = self.cut.cloth
        return self.table.task(
            pieces, cloth=at_origin(self.cut.outline_washed), one_way=cloth.one_way,
            repeat=cloth.repeat,
        )
