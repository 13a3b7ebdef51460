"""The largest value that still has a lay on one cut, by bisection with the lay as oracle.

The screen is bisected first: it proves a ceiling without laying anything. Then the
ceiling is tried, the value falls by what is short, and the gap between the best lay and
the least failure is halved. A failed search proves nothing, so at the end a little more
is tried with other seeds. Need grows with the value within noise (measured: 0 of 101
fresh searches above the best found one), which is what makes halving honest.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from stash.lay import Budget, LayAnswer, LayFound, LayTask, screen, solve
from stash.match.far.growing import Growing
from stash.match.fit.question import Effort, Stop
from stash.match.strip_lays import Table, at_origin
from stash.model import Cut, Lay, Piece

# Sweeps of one try: five times as many find no more in nine cases of ten.
SWEEPS = 1500
LEAP = 4


class Ended(StrEnum):
    """What ended the growing."""

    PROOF = "proof"
    OPTION = "option"
    SEARCH = "search"


@dataclass(frozen=True, kw_only=True)
class Reach:
    """How far one cut goes.

    ``value`` has the ``lay`` of ``pieces``; ``proved_at_most`` is a value that no lay
    can reach, None where the option's own range ends first.
    """

    cut: Cut
    value: float
    lay: Lay
    pieces: tuple[Piece, ...]
    proved_at_most: float | None
    ended: Ended


def reach(growing: Growing, cut: Cut, table: Table, effort: Effort) -> Reach | None:
    """The farthest that was found; None when even the least value has no lay."""
    tries = _Tries(growing, cut, table, effort)
    ceiling, refuted = _ceiling(tries)
    if ceiling is None:
        return None
    stop = effort.stage()
    best = _fall(tries, ceiling, stop)
    if best is None:
        return None
    best = _halve(tries, best, ceiling, stop)
    best = _polish(tries, best, ceiling, effort)
    value, lay, pieces = best
    return Reach(
        cut=cut, value=value, lay=lay, pieces=pieces, proved_at_most=refuted,
        ended=_ended(tries, value, ceiling, refuted),
    )


_Found = tuple[float, Lay, tuple[Piece, ...]]


@dataclass
class _Tries:
    """Every value tried on one cut, each drafted once."""

    growing: Growing
    cut: Cut
    table: Table
    effort: Effort
    drafted: dict[float, tuple[Piece, ...] | None] = field(default_factory=dict)
    failed: dict[float, float] = field(default_factory=dict)

    def on_step(self, value: float) -> float:
        """The value as it can be chosen: a whole number of steps, inside the range."""
        g = self.growing
        value = round(value / g.step) * g.step
        return min(max(value, g.least), g.most)

    def pieces(self, value: float) -> tuple[Piece, ...] | None:
        """The pieces, or None where the draft refuses."""
        if value not in self.drafted:
            self.drafted[value] = self.growing.pieces(value)
        return self.drafted[value]

    def refuted(self, value: float) -> bool:
        """True when the screen proves that this value has no lay."""
        pieces = self.pieces(value)
        return pieces is not None and screen(self._task(pieces)) is not None

    def lay(self, value: float, stop: Stop, seed: int = 1) -> _Found | None:
        """A lay at this value, searched for; remembers what was short."""
        pieces = self.pieces(value)
        if pieces is None:
            return None
        answer: LayAnswer = solve(
            self._task(pieces), Budget(seed=seed, iterations=SWEEPS, stop=stop)
        )
        if not isinstance(answer, LayFound):
            self.failed[value] = answer.short_mm or 0.0
            return None
        left, low, _, _ = self.cut.outline_washed.bounds_mm
        return value, answer.lay.shifted(left, low), pieces

    def _task(self, pieces: tuple[Piece, ...]) -> LayTask:
        cloth = self.cut.cloth
        return self.table.task(
            pieces, cloth=at_origin(self.cut.outline_washed), one_way=cloth.one_way,
            repeat=cloth.repeat,
        )


def _ceiling(tries: _Tries) -> tuple[float | None, float | None]:
    """(largest value not refuted, least one refuted): by halving, both on steps."""
    g = tries.growing
    low, high = g.least, g.most
    if not _open(tries, high):
        if not _open(tries, low):
            opened = _first_open(tries)
            if opened is None:
                return None, g.least if tries.refuted(g.least) else None
            low = opened
        while high - low > g.step + 1e-9:
            middle = tries.on_step((low + high) / 2)
            if not low < middle < high:
                break
            low, high = (middle, high) if _open(tries, middle) else (low, middle)
        return low, high if tries.refuted(high) else None
    return high, None


def _first_open(tries: _Tries) -> float | None:
    """Some value that can be drafted and is not refuted, where the least cannot be drafted."""
    g = tries.growing
    for share in (0.05, 0.1, 0.2, 0.35, 0.5, 0.75):
        value = tries.on_step(g.least + share * (g.most - g.least))
        if _open(tries, value):
            return value
    return None


def _open(tries: _Tries, value: float) -> bool:
    return tries.pieces(value) is not None and not tries.refuted(value)


def _fall(tries: _Tries, ceiling: float, stop: Stop) -> _Found | None:
    """The first lay on the way down from the ceiling, each time deeper than what is short.

    Once the time is up the tries are quick ones, but the way is gone to its end.
    """
    g, value, deeper, least = tries.growing, ceiling, 1.0, _least(tries, ceiling)
    while True:
        if found := tries.lay(value, stop):
            return found
        if value <= least:
            return None
        short = tries.failed.get(value) or g.step
        fall = max(short if g.step > 1 else value / 8, g.step) * deeper
        value, deeper = max(tries.on_step(value - fall), least), deeper * 1.6


def _least(tries: _Tries, drafted: float) -> float:
    """The least value that the draft accepts, below one that it does."""
    low = tries.growing.least
    if tries.pieces(low) is not None:
        return low
    while drafted - low > tries.growing.step + 1e-9:
        middle = tries.on_step((low + drafted) / 2)
        if not low < middle < drafted:
            break
        low, drafted = (low, middle) if tries.pieces(middle) is not None else (middle, drafted)
    return drafted


def _halve(tries: _Tries, best: _Found, ceiling: float, stop: Stop) -> _Found:
    """Between the best lay and the least value that failed."""
    above = [value for value in tries.failed if value > best[0]]
    high = min(above, default=ceiling)
    while high - best[0] > tries.growing.step + 1e-9 and not stop():
        middle = tries.on_step((best[0] + high) / 2)
        if not best[0] < middle < high:
            break
        if found := tries.lay(middle, stop):
            best = found
        else:
            high = middle
    return best


def _polish(tries: _Tries, best: _Found, ceiling: float, effort: Effort) -> _Found:
    """A little more with other seeds, until the time for it is over or the ceiling is met."""
    clock, seed, leap = effort.each(), 2, LEAP
    step = tries.growing.step
    while best[0] < ceiling and not clock() and not effort.halt():
        value = min(tries.on_step(best[0] + leap * step), ceiling)
        found = tries.lay(value, lambda: clock() or effort.halt(), seed)
        if found:
            best = found
        elif leap > 1:
            leap = 1
        else:
            seed, leap = seed + 1, LEAP if seed % 3 == 0 else 1
    return best


def _ended(tries: _Tries, value: float, ceiling: float, refuted: float | None) -> Ended:
    if value < ceiling:
        return Ended.SEARCH
    return Ended.OPTION if refuted is None else Ended.PROOF
