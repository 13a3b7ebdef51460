"""The largest value that still has a lay on one cut, by bisection with the lay as oracle.

The screen is bisected first: it proves a ceiling without laying anything. Then the
ceiling is tried, the value falls by what is short, and the gap between the best lay and
the least failure is halved, each time from the best lay moved over and then from nothing.
A failed search proves nothing, so at the end a little more is tried from where the best
lies. Need grows with the value within noise (measured: 0 of 101 fresh searches above the
best found one), which is what makes halving honest.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from stash.match.far.growing import Growing
from stash.match.far.tries import Drafted, Grown, Tries
from stash.match.fit.question import Effort, Stop
from stash.match.strip_lays import Table
from stash.model import Cut, Laid, PlannedGarment

# Sweeps of a lay moved over before it is searched for from nothing.
MOVED_SWEEPS = 300
# Steps more that are tried at once, and sweeps before a lesser gain is tried.
LEAP, LEAP_SWEEPS = 4, 600
STEP_SWEEPS = 2500


class Ended(StrEnum):
    """What ended the growing."""

    PROOF = "proof"
    OPTION = "option"
    SEARCH = "search"


@dataclass(frozen=True, kw_only=True)
class Reach:
    """How far one cut goes: ``value`` has the lay of ``laid``.

    ``proved_at_most`` is a value that no lay can reach, None where the option's own range
    ends first.
    """

    value: float
    laid: Laid
    proved_at_most: float | None
    ended: Ended

    @property
    def cut(self) -> Cut:
        """The cut it lies on."""
        return self.laid.cut


def reach(growing: Growing, cut: Cut, table: Table, effort: Effort) -> Reach | None:
    """The farthest that was found; None when even the least value has no lay."""
    return grow_on(growing, cut, table, effort).reach()


def grow_on(growing: Growing, cut: Cut, table: Table, effort: Effort) -> Growth:
    """All stages on one cut: first and halved within one clock, polished within another."""
    growth = Growth(Tries(Drafted(growing), cut, table))
    stop = effort.stage()
    growth.first(stop)
    growth.halve(stop)
    clock = effort.each()
    growth.polish(lambda: clock() or effort.halt())
    return growth


@dataclass
class Growth:
    """The growing on one cut, a stage at a time: proved at most, first found, halved, polished.

    ``ceiling`` is the largest value not refuted, None where nothing can be; ``refuted``
    the least value that is; ``best`` what was found. ``looked`` and ``halved`` say which
    stages had their turn.
    """

    tries: Tries
    ceiling: float | None = field(init=False)
    refuted: float | None = field(init=False)
    best: Grown | None = None
    looked: bool = False
    halved: bool = False
    _seed: int = 2
    _leap: int = LEAP

    def __post_init__(self) -> None:
        self.ceiling, self.refuted = _ceiling(self.tries)

    @property
    def ended(self) -> bool:
        """True when nothing more can be found."""
        return self.ceiling is None or (
            self.best is not None and self.best.value >= self.ceiling
        )

    @property
    def may_reach(self) -> float:
        """What no proof forbids; nothing where even the least is refuted."""
        return float("-inf") if self.ceiling is None else self.ceiling

    def serve(self, found: Grown) -> None:
        """Take a lay that is known to lie on this cut, when it is farther than the own one."""
        if self.best is None or found.value > self.best.value:
            self.best = found

    def first(self, stop: Stop, begin: float | None = None) -> None:
        """The first lay on the way down from the ceiling, or from ``begin``, each time
        deeper than what is short.

        Once the time is up the tries are quick ones, but the way is gone to its end.
        """
        self.looked = True
        if self.ceiling is None or self.best is not None:
            return
        tries, g, deeper = self.tries, self.tries.drafted.growing, 1.0
        value = self.ceiling if begin is None else min(begin, self.ceiling)
        least = _least(self.tries, self.ceiling)
        value = max(value, least)
        while self.best is None:
            self.best = tries.lay(value, stop)
            if value <= least:
                return
            short = tries.failed.get(value) or g.step
            fall = max(short if g.step > 1 else value / 8, g.step) * deeper
            lower = tries.drafted.between(value - 1.25 * fall, value - 0.75 * fall)
            value, deeper = max(lower, least), deeper * 1.6

    def halve(self, stop: Stop, *, afresh: bool = True) -> None:
        """Between the best lay and the least value that failed.

        ``afresh``: what the best lay moved over does not reach is searched for from nothing.
        """
        self.halved = True
        if self.best is None or self.ceiling is None:
            return
        best, step = self.best, self.tries.drafted.growing.step
        above = [value for value in self.tries.failed if value > best.value]
        high = min(above, default=self.ceiling + step)
        while high - best.value > step + 1e-9 and not stop():
            middle = self.tries.drafted.between(best.value, high)
            if not best.value < middle < high:
                break
            sweeps = MOVED_SWEEPS if afresh else LEAP_SWEEPS
            found = self.tries.lay_from(best, middle, stop, sweeps=sweeps)
            if found is None and afresh:
                found = self.tries.lay(middle, stop)
            if found:
                best = self.best = found
            elif not stop():
                high = middle
                self.tries.failed.setdefault(middle, 0.0)

    def polish(self, stop: Stop) -> None:
        """A little more from where the best lies, until the time is over or the ceiling met."""
        step = self.tries.drafted.growing.step
        while self.best and self.ceiling and self.best.value < self.ceiling and not stop():
            value = self.tries.drafted.on_step(self.best.value + self._leap * step)
            value = min(value, self.ceiling)
            sweeps = LEAP_SWEEPS if self._leap > 1 else STEP_SWEEPS
            found = self.tries.lay_from(
                self.best, value, stop, seed=self._seed, sweeps=sweeps
            )
            if found is None and not stop() and self._seed % 2 == 0:
                found = self.tries.lay(value, stop, self._seed)
            if found:
                self.best = found
            elif self._leap > 1:
                self._leap = 1
            else:
                self._seed, self._leap = self._seed + 1, LEAP if self._seed % 3 == 0 else 1

    def reach(self, garments: tuple[PlannedGarment, ...] = ()) -> Reach | None:
        """What was found, its lay moved to where the cut begins; None where nothing was."""
        best, cut = self.best, self.tries.cut
        if best is None:
            return None
        left, low, _, _ = cut.outline_washed.bounds_mm
        laid = Laid(
            cut=cut, lay=best.lay.shifted(left, low), pieces=best.pieces, garments=garments,
            one_way=cut.cloth.one_way,
        )
        ended = Ended.SEARCH
        if self.ended:
            ended = Ended.OPTION if self.refuted is None else Ended.PROOF
        return Reach(value=best.value, laid=laid, proved_at_most=self.refuted, ended=ended)


def _ceiling(tries: Tries) -> tuple[float | None, float | None]:
    """(largest value not refuted, least one refuted): by halving, both on steps."""
    g = tries.drafted.growing
    low, high = g.least, g.most
    if tries.open(high):
        return high, None
    if not tries.open(low):
        opened = _first_open(tries)
        if opened is None:
            return None, g.least if tries.refuted(g.least) else None
        low = opened
    while high - low > g.step + 1e-9:
        middle = tries.drafted.between(low, high)
        if not low < middle < high:
            break
        low, high = (middle, high) if tries.open(middle) else (low, middle)
    return low, high if tries.refuted(high) else None


def _first_open(tries: Tries) -> float | None:
    """Some value that can be drafted and is not refuted, where the least cannot be drafted."""
    g = tries.drafted.growing
    for share in (0.05, 0.1, 0.2, 0.35, 0.5, 0.75):
        value = tries.drafted.on_step(g.least + share * (g.most - g.least))
        if tries.open(value):
            return value
    return None


def _least(tries: Tries, drafted: float) -> float:
    """The least value that the draft accepts, below one that it does."""
    low, pieces = tries.drafted.growing.least, tries.drafted.pieces
    if pieces(low) is not None:
        return low
    while drafted - low > tries.drafted.growing.step + 1e-9:
        middle = tries.drafted.on_step((low + drafted) / 2)
        if not low < middle < drafted:
            break
        low, drafted = (low, middle) if pieces(middle) is not None else (middle, drafted)
    return drafted
