"""The answers: screen, first lay, then search; every lay is checked before anyone sees it."""

from __future__ import annotations

from collections.abc import Callable

from stash.lay import search as hunt
from stash.lay.check import check
from stash.lay.cost import State
from stash.lay.screen import screen
from stash.lay.setting import Setting, settings_of
from stash.lay.task import Answer, Budget, LayTask, Verdict
from stash.lay.validate import validated
from stash.model import Lay
from stash.units import format_length

Progress = Callable[[Lay], None]
EASY_TO_CUT = 1.01  # a folded spread may use this much more length than an open one


class UnsoundLay(AssertionError):
    """A lay failed the independent check: a fault of the engine, never an answer."""


def first_lay(task: LayTask) -> Answer:
    """The quick answer: bottom-left fills only. FITS, NOT_FOUND, or IMPOSSIBLE by proof."""
    return screen(task) or _answer(validated(task), _first_lays(task), 0)


def solve(task: LayTask, budget: Budget, progress: Progress | None = None) -> Answer:
    """Whether everything comes out of ``task.cloth``: screen, first lay, then search."""
    proof = screen(task)
    if proof is not None:
        return proof
    lays = _first_lays(task)
    if not lays or any(s.within(state) for s, state in lays):
        return _answer(task, lays, 0)
    return _searched(task, lays, budget, progress)


def shortest(task: LayTask, budget: Budget, progress: Progress | None = None) -> Answer:
    """The shortest lay found, off the roll or on the task's own cloth."""
    proof = screen(task)
    if proof is not None:
        return proof
    lays = _first_lays(task)
    return _searched(task, lays, budget, progress, shorten=True)


def _first_lays(task: LayTask) -> list[tuple[Setting, State]]:
    """The shortest fill of each setting."""
    lays = []
    for setting in settings_of(task):
        state = _shortest_fill(setting)
        if state is not None:
            lays.append((setting, state))
    return lays


def _shortest_fill(setting: Setting) -> State | None:
    board = setting.board
    full = [s for whole, s in hunt.fills(board, 0.0) if whole]
    if setting.cut_back and not any(setting.within(s) for s in full):
        full += [s for whole, s in hunt.fills(board, setting.cut_back) if whole]
    return min(full, key=lambda s: hunt.used_mm(board, s), default=None)


def _searched(
    task: LayTask,
    lays: list[tuple[Setting, State]],
    budget: Budget,
    progress: Progress | None,
    *,
    shorten: bool = False,
) -> Answer:
    found, sweeps = [], 0
    for setting, state in lays:
        goal = None if shorten else setting.target_mm
        search = hunt.Search(setting.board, budget)
        best = hunt.compress(search, state, goal)
        sweeps += search.sweeps
        found.append((setting, best))
    return _answer(task, found, sweeps)


def _answer(task: LayTask, lays: list[tuple[Setting, State]], sweeps: int) -> Answer:
    """The best of the lays as an answer, or the sentence that says what is short."""
    if not lays:
        return Answer(
            verdict=Verdict.IMPOSSIBLE,
            reason="A piece has no place on this cloth spread this way; lay the cloth open.",
        )
    sound = [(setting, state) for setting, state in lays if setting.within(state)]
    if sound:
        return _fits(task, sound, sweeps)
    short = min(setting.short_mm(state) for setting, state in lays)
    return Answer(
        verdict=Verdict.NOT_FOUND,
        reason="No lay was found; the shortest one known needs "
        f"{format_length(short)} more length.",
        short_mm=short,
        iterations=sweeps,
    )


def _fits(task: LayTask, sound: list[tuple[Setting, State]], sweeps: int) -> Answer:
    lays = [setting.lay(state) for setting, state in sound]
    least = min(lay.length_mm for lay in lays)
    lay = next(lay for lay in lays if lay.length_mm <= EASY_TO_CUT * least)
    faults = check(task, lay)
    if faults:
        raise UnsoundLay("; ".join(faults))
    return Answer(
        verdict=Verdict.FITS,
        reason=f"Everything fits in {format_length(lay.length_mm)} of the length.",
        lay=lay,
        iterations=sweeps,
    )
