"""Which of my cuts makes this? The whole answer: lays, notions, companions, rescues."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, field, replace

from stash.deadline import Deadline, never
from stash.match.fit.answers import Candidate, Fit
from stash.match.fit.companion_cut import companions
from stash.match.fit.fit import Effort, Progress, Question, fit
from stash.match.fit.ranking import Weights
from stash.match.gather import gather
from stash.match.notions.supplies import supplies
from stash.match.order import Order
from stash.match.rescue.changes import Attempt
from stash.match.rescue.rescues import Rescue, rescues
from stash.model import Cut, Spread
from stash.store import Stash
from stash.workroom.questions.free_stock import FreeStock, free_stash
from stash.workroom.settings import habits, units

__all__ = [
    "Asking", "Candidate", "FitAnswer", "Weights", "ask_fit", "attempt_of",
    "nearest_misses", "question_of", "with_supplies",
]

# First lays of a small stash take what they take; of the searching after them, one
# search takes at most this share. Rescues get a time of their own when nothing fits.
SHARE_OF_ONE_SEARCH = 0.15
RESCUED_CUTS = 2
RESCUE_TIME = 3.0
FAR_SHARE = 0.6


@dataclass(frozen=True, kw_only=True)
class Asking:
    """How the question is put: seconds, which plans to imagine given up, which cuts."""

    seconds: float = 4.0
    workers: int = 1
    seed: int = 1
    giving_up: Collection[str] = ()
    only_cut: str | None = None
    spread: Spread | None = Spread.OPEN
    weights: Weights = field(default_factory=Weights)
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
    """A fit with the orders it was asked for and the rescues of its nearest misses."""

    orders: tuple[Order, ...]
    fit: Fit
    rescues: tuple[Rescue, ...] = ()
    taken_whole: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def to_json(self) -> dict:
        """The stable shape, with what was estimated named for each garment."""
        return {
            **self.fit.to_json(),
            "rescues": [rescue.to_json() for rescue in self.rescues],
            "held_whole": [
                {"cut": code, "held_by": list(plans)} for code, plans in self.taken_whole.items()
            ],
            "garments": [_garment_json(order) for order in self.orders],
        }


def ask_fit(
    stash: Stash, orders: tuple[Order, ...], asking: Asking | None = None,
    progress: Progress | None = None,
) -> FitAnswer:
    """The answer for these orders over the whole free stash, or for one cut of it."""
    asking = asking or Asking()
    free = free_stash(stash, giving_up=asking.giving_up)
    question = question_of(stash, orders, free, asking)
    found = fit(question, asking.effort(), progress)
    best = next(iter(found.candidates), None)
    found = with_supplies(found, question, free, best.cut if best and best.fits else None)
    tried = () if found.fits else _rescues(orders, question, found, asking)
    return FitAnswer(orders=orders, fit=found, rescues=tried, taken_whole=free.taken_whole)


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
        system=units(stash),
    )


def with_supplies(found: Fit, question: Question, free: FreeStock, cut: Cut | None) -> Fit:
    """The fit with its notions and companions, as they go with one cut (None: any cloth)."""
    lines = supplies(question.garments, free.bins, cut, question.system)
    beside = ()
    if cut:
        suited = [c for c in free.cuts if c.code != cut.code]
        beside = tuple(companions(gather(question.garments), cut, suited, question.table))
    return replace(found, notions=lines, companions=beside)


def attempt_of(orders: tuple[Order, ...], question: Question, cut: Cut) -> Attempt:
    """What rescues start from on one cut."""
    return Attempt(orders=orders, table=question.table, one_way=cut.cloth.one_way)


def nearest_misses(found: Fit, most: int = RESCUED_CUTS) -> tuple[Candidate, ...]:
    """The cuts that miss by least: worth a rescue, unless they miss by far."""
    missed = [
        c for c in found.candidates
        if c.verdict and not c.fits and c.short_mm is not None
        and c.short_mm <= FAR_SHARE * c.cut.outline_washed.length_mm
    ]
    return tuple(sorted(missed, key=lambda c: c.short_mm or 0.0)[:most])


def _rescues(
    orders: tuple[Order, ...], question: Question, found: Fit, asking: Asking
) -> tuple[Rescue, ...]:
    tried: list[Rescue] = []
    effort = replace(asking, seconds=asking.seconds * RESCUE_TIME).effort()
    for candidate in nearest_misses(found):
        attempt = attempt_of(orders, question, candidate.cut)
        tried += rescues(attempt, candidate.cut, question.cuts, effort)
        if any(r.fits for r in tried):
            break
    return tuple(sorted(tried, key=lambda r: not r.fits))


def _garment_json(order: Order) -> dict:
    pattern = order.drafted().pattern
    return {
        "garment": order.garment,
        "person": order.person,
        "estimated": list(pattern.estimated),
        "cautions": list(pattern.cautions),
    }
