"""Which garments come from which cuts: the best assignment over lays already solved.

Every option is a set of garments that is known to fit on one cut together, with its
lay. Choosing among options is a set packing problem: first as many garments as can be,
then, with that number fixed, the least cost.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from stash.match.best_choice import Row, best_choice
from stash.model import Laid

CM2_PER_M2 = 10_000  # cost is counted in square centimetres


@dataclass(frozen=True)
class LaidOption:
    """These garments, all from this cut, at this cost in square metres."""

    cut: str
    garments: frozenset[str]
    cost_m2: float
    laid: Laid | None = field(default=None, compare=False)


@dataclass(frozen=True, kw_only=True)
class Assignment:
    """What is made from what; ``unmade`` is left over. ``proven`` when nothing beats it."""

    chosen: tuple[LaidOption, ...]
    unmade: tuple[str, ...]
    proven: bool = True

    @property
    def made(self) -> frozenset[str]:
        """Every garment that is made."""
        return frozenset(g for option in self.chosen for g in option.garments)

    @property
    def cost_m2(self) -> float:
        """Cost of all chosen options together."""
        return sum(option.cost_m2 for option in self.chosen)


Supplied = Callable[[Sequence[LaidOption]], bool]


def assign(
    garments: Sequence[str],
    options: Sequence[LaidOption],
    *,
    supplied: Supplied = lambda chosen: True,
) -> Assignment:
    """As many garments as can be, then at the least cost; earlier garments win a tie.

    ``supplied`` says whether the notions for some options together are all in the bins;
    options that are not supplied together are not supplied in larger company either.
    """
    forbidden: list[frozenset[LaidOption]] = []
    while True:
        found = _solve(garments, options, forbidden)
        if not found.chosen or supplied(found.chosen):
            return found
        forbidden.append(_least_unsupplied(found.chosen, supplied))


def _least_unsupplied(chosen: Sequence[LaidOption], supplied: Supplied) -> frozenset[LaidOption]:
    """Options that are not supplied although fewer of them are: the sharpest reason."""
    least = list(chosen)
    for option in chosen:
        fewer = [o for o in least if o != option]
        if fewer and not supplied(fewer):
            least = fewer
    return frozenset(least)


def _solve(
    garments: Sequence[str], options: Sequence[LaidOption],
    forbidden: Sequence[frozenset[LaidOption]],
) -> Assignment:
    counts = [len(option.garments) for option in options]
    rows = _exclusions(options, forbidden)
    most = best_choice(counts, rows)
    if most is None:
        return Assignment(chosen=(), unmade=tuple(garments), proven=False)
    as_many = sum(counts[n] for n in most.things)
    kept = Row(range(len(options)), counts, least=as_many)
    found = best_choice([_worth(option, garments) for option in options], [*rows, kept]) or most
    chosen = tuple(options[n] for n in found.things)
    made = {g for option in chosen for g in option.garments}
    return Assignment(
        chosen=chosen,
        unmade=tuple(g for g in garments if g not in made),
        proven=most.proven and found.proven,
    )


def _exclusions(
    options: Sequence[LaidOption], forbidden: Sequence[frozenset[LaidOption]]
) -> list[Row]:
    """Each garment once, each cut once, and no company that the bins cannot supply."""
    once: dict[tuple[str, str], list[int]] = defaultdict(list)
    for n, option in enumerate(options):
        once["cut", option.cut].append(n)
        for garment in option.garments:
            once["garment", garment].append(n)
    rows = [Row(things, [1] * len(things), most=1) for things in once.values()]
    for company in forbidden:
        members = [n for n, option in enumerate(options) if option in company]
        rows.append(Row(members, [1] * len(members), most=len(company) - 1))
    return rows


def _worth(option: LaidOption, garments: Sequence[str]) -> int:
    """Worth of an option besides its garments' number: its cost, and earlier ones a trifle more."""
    first = sum(len(garments) - garments.index(g) for g in option.garments)
    return first - round(option.cost_m2 * CM2_PER_M2)
