"""Which of my cuts makes this? The whole answer: lays, notions, other cloth, rescues."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field, replace

from stash.deadline import Deadline, never
from stash.match.cloth.shrinkage import WashHabit
from stash.match.fit.companion_cut import roles_beside
from stash.match.fit.fit_answer import Candidate, Fit, RoleLine
from stash.match.fit.question import Effort, Question
from stash.match.fit.ranking import Weights
from stash.match.fit.which_cuts import FitProgress, fit, merged
from stash.match.gather import DraftedGarment
from stash.match.notions.supplies import interfacing_laid, supplies
from stash.match.notions.wanted import Line
from stash.match.order import Order
from stash.match.rescue.changes import Attempt
from stash.match.rescue.pieced import pieced
from stash.match.rescue.rescues import Rescue, rescues
from stash.model import Cut, Spread
from stash.store import Stash
from stash.workroom.questions.free_stock import FreeStock, free_stash
from stash.workroom.questions.knit_cuts import CutsAlike, alike
from stash.workroom.questions.machines_asked import machines_asked
from stash.workroom.settings import habits

__all__ = [
    "Asking", "Candidate", "Effort", "FitAnswer", "Rescue", "WashHabit", "Weights", "ask_fit",
    "attempt_of", "nearest_misses", "question_of", "stock_for",
]

# First lays of a small stash take what they take; of the searching after them, one
# search takes at most this share. Rescues get a time of their own when nothing fits.
SHARE_OF_ONE_SEARCH = 0.15
RESCUED_CUTS = 2
RESCUE_TIME = 3.0
FAR_SHARE = 0.6
PIECED_S = 1.5


@dataclass(frozen=True, kw_only=True)
class Asking:
    """How the question is put: seconds, which plans to imagine given up, which cuts.

    ``wash`` says how unwashed cloth is laid; ``presume_shrink`` whether a prudent
    shrinkage is presumed where nobody measured one.
    """

    seconds: float = 4.0
    workers: int = 1
    seed: int = 1
    giving_up: Collection[str] = ()
    only_cut: str | None = None
    spread: Spread | None = Spread.OPEN
    weights: Weights = field(default_factory=Weights)
    wash: WashHabit = WashHabit.FIRST
    presume_shrink: bool = True
    stop: Callable[[], bool] = never

    def effort(self) -> Effort:
        """Stop rules for one question; each stage has the person's seconds."""
        return Effort(
            halt=self.stop,
            searching=lambda: Deadline.after(self.seconds),
            each=lambda: Deadline.after(self.seconds * SHARE_OF_ONE_SEARCH),
            seed=self.seed, workers=self.workers,
        )


@dataclass(frozen=True, kw_only=True)
class FitAnswer:
    """A fit with its garments as they were drafted, its notions, and rescues of near misses.

    ``taken_whole`` are cuts that plans hold altogether, by code.
    """

    orders: tuple[Order, ...]
    fit: Fit
    notions: tuple[Line, ...] = ()
    rescues: tuple[Rescue, ...] = ()
    taken_whole: dict[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def garments(self) -> tuple[DraftedGarment, ...]:
        """What was asked for, drafted."""
        return self.fit.garments


def ask_fit(
    stash: Stash, orders: tuple[Order, ...], asking: Asking | None = None,
    progress: FitProgress | None = None,
) -> FitAnswer:
    """The answer for these orders over the whole free stash, or for one cut of it."""
    asking = asking or Asking()
    free = stock_for(stash, asking)
    asked = question_of(stash, orders, free, asking)
    groups = [
        (one, replace(question_of(stash, one.orders, free, asking), cuts=one.cuts))
        for one in alike(orders, asked.cuts)
    ]
    found = _fit_each(groups, asking, progress)
    best = next(iter(found.fits), None)
    one, question = _group_of(groups, best or next(iter(found.candidates), None))
    lines = supplies(question.garments, free.bins, best.cut if best else None)
    found = replace(found, roles=_roles(question, free, best, lines))
    return FitAnswer(
        orders=one.orders, fit=found, taken_whole=free.taken_whole,
        notions=machines_asked(stash, lines),
        rescues=() if found.fits else _rescues(groups, found, asking),
    )


GroupAsked = tuple[CutsAlike, Question]


def _fit_each(
    groups: Sequence[GroupAsked], asking: Asking, progress: FitProgress | None
) -> Fit:
    """Every group of cuts by the draft that is theirs, in its share of the time."""
    effort = replace(asking, seconds=asking.seconds / len(groups)).effort()
    done: list[Fit] = []

    def report(one: CutsAlike) -> FitProgress | None:
        return progress and (lambda part: progress(merged([*done, one.told(part)])))

    for one, question in groups:
        done.append(one.told(fit(question, effort, report(one))))
    return merged(done)


def _group_of(groups: Sequence[GroupAsked], candidate: Candidate | None) -> GroupAsked:
    """The group that a cut is in."""
    codes = {candidate.cut.code} if candidate else set()
    return next((g for g in groups if codes & {c.code for c in g[0].cuts}), groups[0])


def stock_for(stash: Stash, asking: Asking) -> FreeStock:
    """The free stash with each cut as this question lays it."""
    free = free_stash(stash, giving_up=asking.giving_up)
    return free.washed(asking.wash, presume=asking.presume_shrink)


def question_of(
    stash: Stash, orders: tuple[Order, ...], free: FreeStock, asking: Asking
) -> Question:
    """The match's question for these orders."""
    cuts = free.cuts
    if asking.only_cut is not None:
        code = stash.cuts.get(asking.only_cut).code
        cuts = tuple(c for c in cuts if c.code == code)
    return Question(
        garments=tuple(order.drafted() for order in orders), cuts=cuts,
        table=habits(stash, asking.spread), weights=asking.weights, held_by=free.held_by,
    )


def _roles(
    question: Question, free: FreeStock, best: Candidate | None, lines: tuple[Line, ...]
) -> tuple[RoleLine, ...]:
    """The other cloth that goes with the best cut, interfacing too, each kind with its lay."""
    if best is None:
        return ()
    beside = roles_beside(question.garments, best.cut, free.cuts, question.table)
    fused = interfacing_laid(question.garments, lines, free.bins)
    return (
        *beside,
        *(RoleLine(role=laid.role, pieces=laid.pieces, laid=laid) for laid in fused),
    )


def attempt_of(orders: tuple[Order, ...], question: Question, cut: Cut) -> Attempt:
    """What rescues start from on one cut."""
    return Attempt(orders=orders, table=question.table, one_way=cut.cloth.one_way)


def nearest_misses(found: Fit, most: int = RESCUED_CUTS) -> tuple[Candidate, ...]:
    """The cuts that miss by least: worth a rescue, unless they miss by far."""
    missed = [
        c for c in found.misses
        if c.short_mm is not None
        and c.short_mm <= FAR_SHARE * c.cut.outline_washed.length_mm
    ]
    return tuple(sorted(missed, key=lambda c: c.short_mm or 0.0)[:most])


def _rescues(groups: Sequence[GroupAsked], found: Fit, asking: Asking) -> tuple[Rescue, ...]:
    tried: list[Rescue] = []
    effort = replace(asking, seconds=asking.seconds * RESCUE_TIME).effort()
    for candidate in nearest_misses(found):
        one, question = _group_of(groups, candidate)
        attempt = attempt_of(one.orders, question, candidate.cut)
        tried += rescues(
            attempt, candidate.cut, question.cuts, effort, short_mm=candidate.short_mm
        )
        if not any(r.fits and not r.drastic for r in tried):
            tried += pieced(
                attempt, candidate.cut, replace(asking, seconds=PIECED_S).effort(),
                candidate.short_mm,
            )
        if any(r.fits for r in tried):
            break
    return tuple(sorted(tried, key=lambda r: (not r.fits, r.drastic)))
