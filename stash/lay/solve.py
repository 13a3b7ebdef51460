"""The answers: screen, first lay, then search; every lay is checked before anyone sees it."""

from __future__ import annotations

import warnings
from collections.abc import Callable
from dataclasses import replace
from math import ceil

from stash.deadline import never
from stash.fact import Fact, fact
from stash.lay.check import TOUCH_MM, check
from stash.lay.proof.screen import screen
from stash.lay.search.bottom_left import first_state
from stash.lay.search.moved_over import moved_over, separated_from
from stash.lay.search.moves import Meter, Search
from stash.lay.search.race import Best, Race
from stash.lay.search.straighten import straightened
from stash.lay.search.ways_to_spread import ways_to_spread
from stash.lay.task import Budget, LayTask
from stash.lay.verdicts import LayAnswer, LayFound, NoLayFound, NoLayPossible
from stash.lay.warm import warm, warm_for_a_first_lay
from stash.model import Lay, Outline

Progress = Callable[[Lay], None]
Stop = Callable[[], bool]
EASY_TO_CUT = 1.01  # a folded spread may use this much more length than an open one


class UnsoundLay(RuntimeWarning):
    """A lay failed the independent check: a fault of the engine to report, never an answer."""


def first_lay(task: LayTask) -> LayAnswer:
    """The quick answer: bottom-left fills only. Never said to be impossible but by proof."""
    warm_for_a_first_lay()
    return _proved(task, never) or _answer(task, _first_lays(task, never), 0)


def solve(task: LayTask, budget: Budget, progress: Progress | None = None) -> LayAnswer:
    """Whether everything comes out of the task's cloth: screen, first lay, then search.

    Off the roll the length is free, so the search shortens it instead.
    """
    warm_for_a_first_lay()
    proof = _proved(task, budget.stop)
    if proof is not None:
        return proof
    if task.cloth is None:
        return shortest(task, budget, progress)
    lays = _first_lays(task, budget.stop)
    if not lays or any(way.within(state) for way, state in lays):
        return _answer(task, lays, 0)
    return _raced(task, lays, budget, progress, to_the_cut=True)


def solve_from(task: LayTask, before: Lay, budget: Budget) -> LayAnswer:
    """Whether everything comes out of the task's cloth, begun from a lay of like pieces.

    For cloth that is spread open and pieces of the same names; else as ``solve`` does.
    """
    warm_for_a_first_lay()
    proof = screen(task)
    if proof is not None:
        return proof
    warm()
    for way in ways_to_spread(task):
        start = moved_over(way, before)
        if start is None or way.target_mm is None:
            continue
        search = Search(way.board, Meter(budget))
        for state in separated_from(search, start, way.cut_back):
            if state is not None:
                return _answer(task, [(way, state)], search.meter.sweeps)
        return NoLayFound(because=fact("no_lay_found"), sweeps=search.meter.sweeps)
    return solve(task, budget)


def shortest(task: LayTask, budget: Budget, progress: Progress | None = None) -> LayAnswer:
    """The shortest lay found, off the roll or on the task's own cloth."""
    warm_for_a_first_lay()
    proof = _proved(task, budget.stop)
    if proof is not None:
        return proof
    return _raced(task, _first_lays(task, budget.stop), budget, progress, to_the_cut=False)


def _proved(task: LayTask, stop: Stop) -> NoLayPossible | None:
    """The screen's proof; how much is short comes from a first lay off the roll."""
    proof = screen(task)
    if proof is None or task.cloth is None:
        return proof
    x0, _, x1, _ = task.cloth.bounds_mm
    roll = replace(task, cloth=None, width_mm=task.cloth.width_mm)
    if screen(roll) is not None:
        return proof
    strip = _answer(roll, _first_lays(roll, stop), 0)
    if strip.lay is None:
        return proof
    return replace(proof, short_mm=shortfall(strip.lay.length_mm - (x1 - x0)))


def _first_lays(task: LayTask, stop: Stop) -> list[Best]:
    """A first lay of every way to spread the cloth; once stopped, as far as the first that
    serves, so that nothing is called not found for want of time to spread the cloth anew."""
    found: list[Best] = []
    for way in ways_to_spread(task):
        state = first_state(way)
        if state is not None:
            found.append((way, state))
        if any(way.within(state) for way, state in found) and stop():
            break
    return found


def _raced(
    task: LayTask, lays: list[Best], budget: Budget, progress: Progress | None, to_the_cut: bool
) -> LayAnswer:
    if not lays:
        return _answer(task, lays, 0)
    tell = None
    if progress is not None:
        def tell(best: Best) -> None:
            progress(best[0].lay(best[1]))
    warm()
    race = Race(lays, budget, to_the_cut, tell)
    return _answer(task, race.run(), race.sweeps)


def _answer(task: LayTask, lays: list[Best], sweeps: int) -> LayAnswer:
    """The best of the lays as an answer, or what is short."""
    if not lays:
        return NoLayFound(because=fact("no_lay_spread_this_way"), sweeps=sweeps)
    within = [(way, state) for way, state in lays if way.within(state)]
    sound, faults = _sound(task, [way.lay(straightened(way, state)) for way, state in within])
    if sound:
        return _fits(task, sound, sweeps)
    if faults:
        return NoLayFound(because=fact("no_sound_lay", faults=faults), sweeps=sweeps)
    short = shortfall(min(way.short_mm(state) or 0.0 for way, state in lays))
    because = fact("no_lay_found_short", short_mm=short) if short else fact("no_lay_found")
    return NoLayFound(because=because, short_mm=short, sweeps=sweeps)


def _sound(task: LayTask, lays: list[Lay]) -> tuple[list[Lay], tuple[Fact, ...]]:
    """(lays that pass the independent check, faults of those that do not, which is warned of)."""
    sound: list[Lay] = []
    found: list[Fact] = []
    for lay in lays:
        faults = check(task, lay)
        if faults:
            warnings.warn("; ".join(map(str, faults)), UnsoundLay, stacklevel=2)
            found += faults
        else:
            sound.append(lay)
    return sound, tuple(dict.fromkeys(found))


def _fits(task: LayTask, lays: list[Lay], sweeps: int) -> LayAnswer:
    """The shortest lay, or a folded one hardly longer, since that is quicker to cut."""
    least = min(lay.length_mm for lay in lays)
    handy = [lay for lay in lays if lay.length_mm <= EASY_TO_CUT * least]
    lay = min(handy, key=lambda lay: (lay.fold_mm is None, lay.length_mm))
    return LayFound(lay=lay, used_mm=lay.length_mm - _start(task.cloth), sweeps=sweeps)


def _start(cloth: Outline | None) -> float:
    return cloth.bounds_mm[0] if cloth is not None else 0.0


def shortfall(short_mm: float) -> float | None:
    """What is short in whole millimetres, near a metre and beyond in centimetres as it is
    read, rounded up, since so much more must be enough; None when length is not short."""
    if short_mm <= 0:
        return None
    step = 1 if short_mm <= 990 else 10
    return float(step * max(1, ceil((short_mm - TOUCH_MM) / step)))
