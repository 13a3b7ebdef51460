"""Which bin serves which need, so that nothing is promised twice."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from stash.match.notions.choices import choices, nearest
from stash.match.notions.wanted import Choice, Line, Wanted
from stash.model import Bin

MISSING_COST = 100.0
SLACK = 1e-6


def promise(wanted: Sequence[Wanted], bins: Sequence[Bin]) -> tuple[Line, ...]:
    """The cheapest promises over all needs together, one line a need, in their order.

    Kinds do not compete with one another, so each is settled exactly by itself:
    as few needs missing as can be, then the choices that suit best.
    """
    settled: dict[int, Line] = {}
    by_kind: dict[str, list[int]] = defaultdict(list)
    for index, want in enumerate(wanted):
        by_kind[want.need.kind].append(index)
    for kind, indices in by_kind.items():
        same = [b for b in bins if b.notion.kind is kind]
        settled.update(_settle(wanted, indices, same))
    return tuple(settled[index] for index in range(len(wanted)))


def missing(lines: Sequence[Line]) -> tuple[Line, ...]:
    """The lines that must be bought."""
    return tuple(line for line in lines if line.chosen is None)


def promised(lines: Sequence[Line]) -> dict[str, float]:
    """How much of each bin the lines take, by code."""
    taken: dict[str, float] = defaultdict(float)
    for line in lines:
        for code, amount in line.chosen.parts if line.chosen else ():
            taken[code] += amount
    return dict(taken)


def _settle(
    wanted: Sequence[Wanted], indices: list[int], bins: Sequence[Bin]
) -> dict[int, Line]:
    options = {i: choices(wanted[i], bins) for i in indices}
    # Needs with the fewest ways first: the search then fails early.
    order = sorted(indices, key=lambda i: (len(options[i]), i))
    search = _Search(options, {b.code: b.amount for b in bins})
    search.descend(order, 0.0, {})
    return {
        i: Line(
            wanted=wanted[i],
            chosen=search.best.get(i),
            others=tuple(c for c in options[i] if c != search.best.get(i))[:3],
            nearest="" if i in search.best else nearest(wanted[i], bins),
        )
        for i in indices
    }


class _Search:
    """Depth-first with a bound: exact, and quick because a garment has few needs of a kind."""

    def __init__(self, options: Mapping[int, tuple[Choice, ...]], amounts: dict[str, float]):
        self.options = options
        self.left = amounts
        self.best: dict[int, Choice] = {}
        self.best_cost = float("inf")

    def descend(self, order: list[int], cost: float, chosen: dict[int, Choice]) -> None:
        """Try every choice for the first need in ``order``, and going without it."""
        if cost + self._least(order) >= self.best_cost:
            return
        if not order:
            self.best, self.best_cost = dict(chosen), cost
            return
        first, rest = order[0], order[1:]
        for choice in self.options[first]:
            if all(self.left[code] + SLACK >= amount for code, amount in choice.parts):
                self._take(choice, -1)
                self.descend(rest, cost + choice.cost, {**chosen, first: choice})
                self._take(choice, 1)
        self.descend(rest, cost + MISSING_COST, chosen)

    def _least(self, order: list[int]) -> float:
        return sum(self.options[i][0].cost if self.options[i] else MISSING_COST for i in order)

    def _take(self, choice: Choice, sign: int) -> None:
        for code, amount in choice.parts:
            self.left[code] += sign * amount
