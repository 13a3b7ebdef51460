"""Which garments come from which cuts: the best assignment over lays already solved.

Every option is a set of garments that is known to fit on one cut together, with its
lay. Choosing among options is a set packing problem, given to OR-Tools CP-SAT.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from stash.model import Lay

# Cost is counted in square centimetres; one garment more outweighs any cost.
CM2_PER_M2 = 10_000
GARMENT_WORTH = 10_000_000


@dataclass(frozen=True)
class Option:
    """These garments, all from this cut, at this cost in square metres."""

    cut: str
    garments: frozenset[str]
    cost_m2: float
    lay: Lay | None = field(default=None, compare=False)


@dataclass(frozen=True, kw_only=True)
class Assignment:
    """What is made from what; ``unmade`` is left over. ``proven`` when nothing beats it."""

    chosen: tuple[Option, ...]
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


def assign(
    garments: Sequence[str],
    options: Sequence[Option],
    *,
    supplied: Callable[[frozenset[str]], bool] = lambda made: True,
) -> Assignment:
    """As many garments as can be, then at the least cost; earlier garments win a tie.

    ``supplied`` says whether the notions for a set of garments are all in the bins; a
    set that is not supplied rules out every larger set that holds it.
    """
    forbidden: list[frozenset[str]] = []
    while True:
        found = _solve(garments, options, forbidden)
        if not found.made or supplied(found.made):
            return found
        forbidden.append(_least_unsupplied(found.made, supplied))


def _least_unsupplied(
    made: frozenset[str], supplied: Callable[[frozenset[str]], bool]
) -> frozenset[str]:
    """A set that is not supplied although each smaller one is: the sharpest reason."""
    least = made
    for garment in sorted(made):
        if len(least) > 1 and not supplied(least - {garment}):
            least = least - {garment}
    return least


def _solve(
    garments: Sequence[str], options: Sequence[Option], forbidden: Sequence[frozenset[str]]
) -> Assignment:
    model = cp_model.CpModel()
    take = [model.new_bool_var(f"take{i}") for i in range(len(options))]
    makes: dict[str, list] = defaultdict(list)
    of_cut: dict[str, list] = defaultdict(list)
    for variable, option in zip(take, options, strict=True):
        of_cut[option.cut].append(variable)
        for garment in option.garments:
            makes[garment].append(variable)
    for variables in [*makes.values(), *of_cut.values()]:
        model.add_at_most_one(variables)
    for together in forbidden:
        model.add(sum(v for g in together for v in makes[g]) <= len(together) - 1)
    model.maximize(sum(
        v * _worth(option, garments) for v, option in zip(take, options, strict=True)
    ))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    # A deterministic bound (not a clock): ample for hundreds of options, and reproducible.
    solver.parameters.max_deterministic_time = 20.0
    status = solver.solve(model)
    if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return Assignment(chosen=(), unmade=tuple(garments), proven=False)
    chosen = tuple(o for v, o in zip(take, options, strict=True) if solver.value(v))
    made = {g for option in chosen for g in option.garments}
    return Assignment(
        chosen=chosen,
        unmade=tuple(g for g in garments if g not in made),
        proven=status == cp_model.OPTIMAL,
    )


def _worth(option: Option, garments: Sequence[str]) -> int:
    """Worth of an option: each garment far more than any cost, earlier ones a trifle more."""
    first = sum(len(garments) - garments.index(g) for g in option.garments)
    return (
        GARMENT_WORTH * len(option.garments) + first - round(option.cost_m2 * CM2_PER_M2)
    )
