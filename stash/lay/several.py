"""Several cuts at once, and garments in order of importance."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from stash.lay.solve import solve
from stash.lay.task import Answer, Budget, LayTask, Verdict
from stash.model import Lay, Outline, Piece

Solver = Callable[[LayTask, Budget], Answer]


@dataclass(frozen=True)
class OverCuts:
    """A lay a cut (None where nothing is laid), and the pieces that found no place."""

    lays: tuple[Lay | None, ...]
    tasks: tuple[LayTask | None, ...]
    left_out: tuple[Piece, ...]


def over_cuts(
    task: LayTask, cuts: Sequence[Outline], budget: Budget, solver: Solver = solve
) -> OverCuts:
    """Fill the first cut as far as it goes, the next with the rest, and so on.

    Whole pieces move from cut to cut (both of a pair come from one cut, since they must
    match in shade); on each cut the largest that fit are laid first. Once the budget is
    stopped, a cut on which something lies takes no more.
    """
    rest = sorted(task.pieces, key=lambda p: -_area(p))
    lays, tasks = [], []
    for cloth in cuts:
        chosen, lay = _filled(replace(task, cloth=cloth, width_mm=None), rest, budget, solver)
        rest = [p for p in rest if p not in chosen]
        lays.append(lay)
        tasks.append(replace(task, cloth=cloth, width_mm=None, pieces=chosen) if lay else None)
    return OverCuts(tuple(lays), tuple(tasks), tuple(rest))


def _filled(
    task: LayTask, pieces: list[Piece], budget: Budget, solver: Solver
) -> tuple[tuple[Piece, ...], Lay | None]:
    chosen: tuple[Piece, ...] = ()
    lay = None
    if pieces and (answer := solver(replace(task, pieces=tuple(pieces)), budget)).lay:
        return tuple(pieces), answer.lay
    for piece in pieces:
        if lay and budget.stop():
            break
        answer = solver(replace(task, pieces=(*chosen, piece)), budget)
        if answer.lay:
            chosen, lay = (*chosen, piece), answer.lay
    return chosen, lay


def largest_set(
    garments: Mapping[str, tuple[Piece, ...]],
    task: LayTask,
    budget: Budget,
    solver: Solver = solve,
) -> tuple[tuple[str, ...], Answer]:
    """The most garments that come out of the cloth together, the first named preferred.

    Sets of one size are tried in the order of importance that ``garments`` gives. Once the
    budget is stopped, garments are only added to one another in that order. The answer is
    that of the chosen set; an empty set carries the last refusal.
    """
    refusal = None
    for names in _sets(garments):
        answer = solver(_together(task, garments, names), budget)
        if answer.verdict is Verdict.FITS:
            return names, answer
        refusal = answer
        if budget.stop():
            return _added(garments, task, budget, solver)
    return (), refusal


def _sets(garments: Mapping[str, tuple[Piece, ...]]) -> Iterator[tuple[str, ...]]:
    """Every set of garments, the larger and the more important first."""
    for size in range(len(garments), 0, -1):
        yield from combinations(garments, size)


def _added(
    garments: Mapping[str, tuple[Piece, ...]], task: LayTask, budget: Budget, solver: Solver
) -> tuple[tuple[str, ...], Answer]:
    """One garment after another, each kept that fits beside those before it."""
    chosen: tuple[str, ...] = ()
    kept = refusal = None
    for name in garments:
        answer = solver(_together(task, garments, (*chosen, name)), budget)
        if answer.verdict is Verdict.FITS:
            chosen, kept = (*chosen, name), answer
        else:
            refusal = answer
    return chosen, kept or refusal


def _together(
    task: LayTask, garments: Mapping[str, tuple[Piece, ...]], names: tuple[str, ...]
) -> LayTask:
    return replace(task, pieces=tuple(p for name in names for p in garments[name]))


def _area(piece: Piece) -> float:
    return Outline(piece.outline_mm).area_mm2 * piece.quantity
