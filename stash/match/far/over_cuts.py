"""As far as it goes over many cuts: their proofs first, then the seconds shared out.

The bounds say which cuts may go farthest, so those are laid first. Each gets a first lay,
then its share of the time to be halved; of what is left half is spent on the cuts whose bound
still beats the best that was found. A lay off one plain length serves every other that is as wide
and as long, so it is offered to all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from stash.deadline import never
from stash.match.far.growing import Growing
from stash.match.far.reach import Growth
from stash.match.far.tries import Drafted, Grown, Tries
from stash.match.fit.question import Stop
from stash.match.gather import area_mm2
from stash.match.strip_lays import Table
from stash.model import Cut

TOUCH_MM = 1e-6
# Shares of the time kept back while cuts are halved, for the ones that may go farthest.
POLISHED = 4
# How full the next cut is taken to be at first, beside the fullest so far.
LESS_FULL = 0.9


@dataclass(frozen=True, kw_only=True)
class Seconds:
    """Clocks for a whole stash: ``share(n)`` is a stop rule for one of n equal parts of what
    is left, ``over`` turns true when nothing is; ``halt`` is the person's own stop."""

    share: Callable[[int], Stop] = lambda parts: never
    over: Stop = never
    halt: Stop = never

    def part(self, parts: int) -> Stop:
        """The stop rule of one part, the person's own stop in it."""
        clock, halt = self.share(parts), self.halt
        return lambda: clock() or halt()

    def ended(self) -> bool:
        """True when the time is over or the person has had enough."""
        return self.over() or self.halt()


Tell = Callable[[Sequence[Growth]], None]


def over_cuts(
    growing: Growing, cuts: Sequence[Cut], table: Table, seconds: Seconds,
    tell: Tell = lambda growths: None,
) -> list[Growth]:
    """The growth of every cut that was screened, those that may go farthest first.

    ``tell`` sees them whenever one got farther. A cut that was not ``looked`` at is one for
    which there was no time.
    """
    growths = _proved(growing, cuts, table, seconds)
    known = _Known()
    for growth in growths:
        if seconds.ended():
            return growths
        known.offer(growth)
        growth.first(_at_once, known.guess(growth))
        known.learn(growth)
        tell(growths)
    for some in (_contenders(growths), growths):
        _halved(some, known, seconds, lambda: tell(growths))
    _polished(growths, known, seconds, lambda: tell(growths))
    return growths


def _proved(
    growing: Growing, cuts: Sequence[Cut], table: Table, seconds: Seconds
) -> list[Growth]:
    drafted, found = Drafted(growing), []
    for cut in cuts:
        if seconds.ended():
            break
        found.append(Growth(Tries(drafted, cut, table)))
    found.sort(key=lambda g: (-g.may_reach, g.tries.cut.outline_washed.area_mm2))
    return found


def _at_once() -> bool:
    """No more than first fills, though the way down is gone to its end."""
    return True


def _best(growths: Sequence[Growth]) -> float:
    return max((g.best.value for g in growths if g.best), default=float("-inf"))


def _contenders(growths: Sequence[Growth]) -> list[Growth]:
    """Those whose bound beats the best that was found."""
    best = _best(growths)
    return [g for g in growths if not g.ended and g.best and g.may_reach > best]


def _halved(
    some: Sequence[Growth], known: _Known, seconds: Seconds, tell: Callable[[], None]
) -> None:
    """Each halved within its share, some shares kept back."""
    todo = [g for g in some if g.best and not g.ended and not g.halved]
    for place, growth in enumerate(todo):
        if seconds.ended():
            return
        known.offer(growth)
        growth.halve(seconds.part(len(todo) - place + POLISHED), afresh=False)
        known.learn(growth)
        tell()


def _polished(
    growths: Sequence[Growth], known: _Known, seconds: Seconds, tell: Callable[[], None]
) -> None:
    """The rest of the time: half of it for those that may still beat the best, then for all."""
    best = _contenders(growths)
    for some, parts in ((best, 2 * len(best)), (growths, 0)):
        todo = [g for g in some if g.best and not g.ended]
        for place, growth in enumerate(todo):
            if seconds.ended():
                return
            known.offer(growth)
            growth.polish(seconds.part(parts - place if parts else len(todo) - place))
            known.learn(growth)
            tell()


class _Known:
    """Lays that were found on plain lengths, each good for others of its width or wider."""

    def __init__(self) -> None:
        self._lays: list[tuple[float, bool, Grown]] = []
        self._fullest = 0.0

    def learn(self, growth: Growth) -> None:
        """Remember what this one found."""
        cut = growth.tries.cut
        if growth.best:
            share = area_mm2(growth.best.pieces) / cut.outline_washed.area_mm2
            self._fullest = max(self._fullest, share)
        if growth.best and _plain(cut):
            self._lays.append((cut.outline_washed.width_mm, cut.cloth.one_way, growth.best))

    def guess(self, growth: Growth) -> float | None:
        """A value that may come out, by how full other cuts are; None where none is known."""
        if not self._fullest or growth.best or growth.ceiling is None:
            return None
        there = growth.tries.cut.outline_washed.area_mm2
        return growth.tries.drafted.filling(LESS_FULL * self._fullest * there)

    def offer(self, growth: Growth) -> None:
        """Give it the farthest of all that lies on it."""
        cut = growth.tries.cut
        if not _plain(cut) or growth.ceiling is None:
            return
        outline = cut.outline_washed
        lies = [
            found for width, one_way, found in self._lays
            if width <= outline.width_mm + TOUCH_MM and (one_way or not cut.cloth.one_way)
            and found.lay.length_mm <= outline.length_mm + TOUCH_MM
        ]
        if lies:
            growth.serve(max(lies, key=lambda found: found.value))


def _plain(cut: Cut) -> bool:
    return cut.outline_washed.is_rectangle and cut.cloth.repeat is None
