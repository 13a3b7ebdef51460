"""Which bin serves which need, so that nothing is promised twice."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from stash.match.best_choice import Row, best_choice
from stash.match.notions.choices import MOST_CHOICES, choices, nearest
from stash.match.notions.wanted import Line, Supply, Wanted
from stash.model import Bin

# A need that goes missing outweighs any choice, however ill it suits.
MISSING_COST = 100.0
PER_COST = 100  # costs are told apart to a hundredth
# A few needs are settled in the first nodes; the bins of dozens of garments end here.
NODES = 200
SLACK = 1e-6


def promise(wanted: Sequence[Wanted], bins: Sequence[Bin]) -> tuple[Line, ...]:
    """The cheapest promises over all needs together, one line a need, in their order.

    Kinds do not compete with one another, so each is settled by itself, exactly but
    for dozens of garments at once, where the search for better ends after a while: as few
    needs missing as can be, then the choices that suit best.
    """
    settled: dict[int, Line] = {}
    by_kind: dict[str, list[int]] = defaultdict(list)
    for index, want in enumerate(wanted):
        by_kind[want.need.kind].append(index)
    for kind, indices in by_kind.items():
        same = [b for b in bins if b.notion.kind == kind]
        settled.update(_settle(wanted, indices, same))
    return tuple(settled[index] for index in range(len(wanted)))


def missing(lines: Sequence[Line]) -> tuple[Line, ...]:
    """The lines that must be bought."""
    return tuple(line for line in lines if line.chosen is None)


def promised(lines: Sequence[Line]) -> dict[str, float]:
    """How much of each bin the lines take, by code."""
    return _taken(line.chosen for line in lines if line.chosen)


def _settle(
    wanted: Sequence[Wanted], indices: list[int], bins: Sequence[Bin]
) -> dict[int, Line]:
    most = MOST_CHOICES + 2 * len(indices)  # many needs alike want more bins than one does
    options = {i: choices(wanted[i], bins, most=most) for i in indices}
    best = _best(options, {b.code: b.amount for b in bins})
    return {
        i: Line(
            wanted=wanted[i],
            chosen=best.get(i),
            others=tuple(c for c in options[i] if c != best.get(i))[:3],
            nearest=() if i in best else nearest(wanted[i], bins),
        )
        for i in indices
    }


def _best(
    options: Mapping[int, tuple[Supply, ...]], amounts: Mapping[str, float]
) -> dict[int, Supply]:
    """The choice of each need: the first of each where no bin is asked for too much."""
    first = {i: found[0] for i, found in options.items() if found}
    if all(much <= amounts[code] + SLACK for code, much in _taken(first.values()).items()):
        return first
    things = [(i, choice) for i, found in options.items() for choice in found]
    worths = [round((MISSING_COST - choice.cost) * PER_COST) for _, choice in things]
    rows = [_once([n for n, (j, _) in enumerate(things) if j == i]) for i in options]
    rows += [_of_bin(code, amount, things) for code, amount in amounts.items()]
    best = best_choice(worths, [row for row in rows if row.things], nodes=NODES)
    return dict(things[n] for n in best.things) if best else {}


def _once(things: list[int]) -> Row:
    """Each need is supplied in one way."""
    return Row(things, [1.0] * len(things), most=1.0)


def _of_bin(code: str, amount: float, things: Sequence[tuple[int, Supply]]) -> Row:
    """No more than the bin holds, as shares of it, so that metres and pieces weigh alike."""
    taken = [(n, dict(choice.parts).get(code, 0.0)) for n, (_, choice) in enumerate(things)]
    shares = {n: much / max(amount, SLACK) for n, much in taken if much}
    return Row(list(shares), list(shares.values()), most=1.0 + SLACK)


def _taken(chosen: Iterable[Supply]) -> dict[str, float]:
    taken: dict[str, float] = defaultdict(float)
    for choice in chosen:
        for code, amount in choice.parts:
            taken[code] += amount
    return dict(taken)
