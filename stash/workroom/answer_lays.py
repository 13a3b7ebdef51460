"""The lays of one answer, each under a short name, so that it can be shown or held by itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stash.errors import NotFound
from stash.fact import Fact
from stash.match.gather import DraftedGarment
from stash.match.rescue.rescues import Rescue
from stash.model import Laid, Role
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.fitting import FitAnswer

ALL = "all"
CHANGE = "change-"
BESIDE = "beside-"


@dataclass(frozen=True, kw_only=True)
class AnswerLay:
    """``key`` names the lay within its answer; ``what`` is made of it, where that is not all.

    ``changes`` are what was altered to make it fit, ``told`` what is to be known of it besides.
    """

    key: str
    laid: Laid
    what: tuple[str, ...] = ()
    changes: tuple[Fact, ...] = ()
    told: tuple[Fact, ...] = ()


@dataclass(frozen=True)
class LaysTaken:
    """What a plan takes from an answer: the garments as they are then made, and the lays.

    ``whole`` when it is the lay that the answer's notions and other cloth were chosen for.
    """

    garments: tuple[DraftedGarment, ...]
    lays: tuple[Laid, ...]
    whole: bool


def lays(answer: FitAnswer | MakingAnswer) -> Iterator[AnswerLay]:
    """Every lay of an answer: on the cuts, after rescues, and of what is cut elsewhere."""
    if isinstance(answer, MakingAnswer):
        for made in answer.made:
            yield AnswerLay(key=made.cut.code, laid=made.laid, what=made.labels,
                            told=made.stretch.told if made.stretch else ())
        return
    for candidate in answer.fit.fits:
        if candidate.laid:
            yield AnswerLay(key=candidate.cut.code, laid=candidate.laid)
    for n, rescue in enumerate(answer.rescues):
        if rescue.laid:
            yield AnswerLay(key=f"{CHANGE}{n}", laid=rescue.laid, changes=rescue.told)
        if rescue.laid and rescue.beside and rescue.beside.laid:
            yield AnswerLay(key=f"{CHANGE}{n}-beside", laid=rescue.beside.laid)
    for n, line in enumerate(answer.fit.roles):
        if line.laid:
            yield AnswerLay(key=f"{BESIDE}{n}", laid=line.laid, what=(line.role.value,))


def lay_named(answer: FitAnswer | MakingAnswer, key: str) -> AnswerLay:
    """One lay by its name; NotFound when there is none."""
    for found in lays(answer):
        if found.key == key:
            return found
    raise NotFound("no_such_lay")


def chosen(answer: FitAnswer | MakingAnswer, key: str) -> LaysTaken:
    """What is to be held when the person takes this lay; ``all`` takes every cut of an answer."""
    if isinstance(answer, MakingAnswer):
        return LaysTaken(answer.garments, tuple(made.laid for made in answer.made), whole=True)
    found = lay_named(answer, key)
    if rescue := _rescue(answer, key):
        beside = rescue.beside.laid if rescue.beside else None
        garments = tuple(order.drafted() for order in rescue.orders)
        return LaysTaken(garments, (found.laid, beside) if beside else (found.laid,), whole=False)
    best = next(iter(answer.fit.fits), None)
    if best is None or best.cut.code != key:
        return LaysTaken(answer.garments, (found.laid,), whole=False)
    others = tuple(
        line.laid for line in answer.fit.roles
        if line.laid and line.role is not Role.INTERFACING  # held as a bin, not as a cut
    )
    return LaysTaken(answer.garments, (found.laid, *others), whole=True)


def _rescue(answer: FitAnswer, key: str) -> Rescue | None:
    names = {f"{CHANGE}{n}": rescue for n, rescue in enumerate(answer.rescues)}
    return names.get(key.removesuffix("-beside"))
