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


Supplied = Callable[[Sequence[Option]], bool]


def assign(
    garments: Sequence[str],
    options: Sequence[Option],
    *,
    supplied: Supplied = lambda chosen: True,
) -> Assignment:
    """As many garments as can be, then at the least cost; earlier garments win a tie.

    ``supplied`` says whether the notions for some options together are all in the bins;
    options that are not supplied together are not supplied in larger company either.
    """
    forbidden: list[frozenset[Option]] = []
    while True:
        found = _solve(garments, options, forbidden)
        if not found.chosen or supplied(found.chosen):
            return found
        forbidden.append(_least_unsupplied(found.chosen, supplied))


def _least_unsupplied(chosen: Sequence[Option], supplied: Supplied) -> frozenset[Option]:
    """Options that are not supplied although fewer of them are: the sharpest reason."""
    least = list(chosen)
    for option in chosen:
        fewer = [o for o in least if o != option]
        if fewer and not supplied(fewer):
            least = fewer
    return frozenset(least)


def _solve(
    garments: Sequence[str], options: Sequence[Option], forbidden: Sequence[frozenset[Option]]
) -> Assignment:
    model = cp_model.CpModel()
    take = [model.new_bool_var(f"take{i}") for i in range(len(options))]
    _exclude(model, take, options, forbidden)
    model.maximize(
        sum(v * _worth(option, garments) for v, option in zip(take, options, strict=True))
    )
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


def _exclude(
    model: cp_model.CpModel, take: Sequence[cp_model.IntVar], options: Sequence[Option],
    forbidden: Sequence[frozenset[Option]],
) -> None:
    """Each garment once, each cut once, and no company that the bins cannot supply."""
    once: dict[str, list[cp_model.IntVar]] = defaultdict(list)
    for variable, option in zip(take, options, strict=True):
        once[f"cut {option.cut}"].append(variable)
        for garment in option.garments:
            once[f"garment {garment}"].append(variable)
    for variables in once.values():
        model.add_at_most_one(variables)
    for company in forbidden:
        members = [v for v, option in zip(take, options, strict=True) if option in company]
        model.add(sum(members) <= len(company) - 1)


def _worth(option: Option, garments: Sequence[str]) -> int:
    """Worth of an option: each garment far more than any cost, earlier ones a trifle more."""
    first = sum(len(garments) - garments.index(g) for g in option.garments)
    return (
        GARMENT_WORTH * len(option.garments) + first - round(option.cost_m2 * CM2_PER_M2)
    )
