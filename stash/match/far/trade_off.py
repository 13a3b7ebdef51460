"""Two options against each other on one cut: the more of one, the less of the other."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from stash.match.far.growing import Growing
from stash.match.far.reach import Reach, reach
from stash.match.fit.question import Effort
from stash.match.strip_lays import Table
from stash.model import Cut

POINTS = 5


@dataclass(frozen=True, kw_only=True)
class CurvePoint:
    """How far the one goes where the other is ``against``; None where nothing lies."""

    against: float
    reach: Reach | None


def points_between(least: float, most: float, step: float, count: int = POINTS) -> list[float]:
    """``count`` values from least to most, on steps, each once."""
    raw = [least + (most - least) * i / (count - 1) for i in range(count)]
    return list(dict.fromkeys(min(max(round(v / step) * step, least), most) for v in raw))


def curve(
    growing_at: Callable[[float], Growing], against: Sequence[float], cut: Cut, table: Table,
    effort: Effort,
) -> tuple[CurvePoint, ...]:
    """One reach for each value of the other option.

    Swept both ways: a value reached where the other option asks for more is tried
    again where it asks for less, so that luck at one point helps its neighbours.
    """
    found = [reach(growing_at(value), cut, table, effort) for value in against]
    for order in (range(1, len(found)), range(len(found) - 2, -1, -1)):
        for i in order:
            beside = found[i - 1] if order.step > 0 else found[i + 1]
            found[i] = _helped(growing_at(against[i]), found[i], beside, cut, table, effort)
    return tuple(
        CurvePoint(against=value, reach=one) for value, one in zip(against, found, strict=True)
    )


def _helped(
    growing: Growing, own: Reach | None, beside: Reach | None, cut: Cut, table: Table,
    effort: Effort,
) -> Reach | None:
    """The own reach, or a better one found from where the neighbour got to."""
    if beside is None or (own is not None and own.value >= beside.value):
        return own
    if effort.halt():
        return own
    again = reach(_From(growing, beside.value), cut, table, effort)
    return own if again is None or (own and again.value <= own.value) else again


class _From:
    """The same growing, begun at a value that a neighbour reached."""

    def __init__(self, growing: Growing, least: float):
        self.name, self.step = growing.name, growing.step
        self.least, self.most = least, growing.most
        self.pieces = growing.pieces
