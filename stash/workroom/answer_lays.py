"""The lays of one answer, each under a short name, so that a page can show it by itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stash.errors import NotFound
from stash.lay import LayTask
from stash.lay.drawing.lay_svg import draw
from stash.lay.drawing.positions import Position, positions_table
from stash.match.order import Order
from stash.match.rescue.changes import Attempt
from stash.match.rescue.rescues import Rescue
from stash.match.strip_lays import Table
from stash.model import Cut, Lay, Piece
from stash.units import System
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.fitting import FitAnswer


@dataclass(frozen=True, kw_only=True)
class AnswerLay:
    """One lay on one cut, with everything needed to draw and to cut it."""

    key: str
    title: str
    cut: Cut
    pieces: tuple[Piece, ...]
    lay: Lay

    @property
    def task(self) -> LayTask:
        """The question whose answer this lay is."""
        return LayTask(
            pieces=self.pieces, cloth=self.cut.outline_washed, one_way=self.cut.cloth.one_way,
            repeat=self.cut.cloth.repeat, spread=self.lay.spread,
        )

    def svg(self, system: System) -> str:
        """The drawing to scale."""
        return draw(self.task, self.lay, title=self.title, system=system)

    def positions(self) -> tuple[Position, ...]:
        """Where to chalk each piece."""
        return positions_table(self.task, self.lay)


@dataclass(frozen=True)
class Chosen:
    """What a plan takes from an answer: the garments as they are then made, and the lays."""

    orders: tuple[Order, ...]
    lays: tuple[AnswerLay, ...]


def lays(answer: FitAnswer | MakingAnswer) -> Iterator[AnswerLay]:
    """Every lay of an answer: on the cuts, after rescues, and of what is cut elsewhere."""
    if isinstance(answer, MakingAnswer):
        for made in answer.made:
            assert made.option.lay  # an option is one because it has a lay
            yield AnswerLay(
                key=made.cut.code, title=f"{', '.join(made.labels)}: {_named(made.cut)}",
                cut=made.cut, pieces=made.pieces, lay=made.option.lay)
        return
    for candidate in answer.fit.candidates:
        if candidate.lay:
            yield AnswerLay(key=candidate.cut.code, title=_named(candidate.cut), cut=candidate.cut,
                       pieces=answer.fit.pieces, lay=candidate.lay)
    for n, rescue in enumerate(answer.rescues):
        if rescue.lay:
            yield AnswerLay(key=f"change-{n}", title=f"{_named(rescue.cut)}. {rescue.change}",
                       cut=rescue.cut, pieces=rescue.pieces, lay=rescue.lay)
        if rescue.moved_to and rescue.moved_lay:
            yield AnswerLay(key=f"change-{n}-beside", title=_named(rescue.moved_to),
                       cut=rescue.moved_to, pieces=rescue.moved_pieces, lay=rescue.moved_lay)
    for n, beside in enumerate(answer.fit.companions):
        if beside.cut and beside.lay:
            yield AnswerLay(
                key=f"beside-{n}", title=f"{beside.role.capitalize()}: {_named(beside.cut)}",
                cut=beside.cut, pieces=beside.pieces, lay=beside.lay)


def chosen(answer: FitAnswer | MakingAnswer, orders: tuple[Order, ...], key: str) -> Chosen:
    """What is to be held when the person takes this lay; "all" takes every cut of an answer."""
    if isinstance(answer, MakingAnswer):
        return Chosen(orders, tuple(lays(answer)))
    if key.startswith("change-"):
        rescue = _rescue(answer, key)
        attempt = Attempt(orders=orders, table=Table(), one_way=rescue.cut.cloth.one_way)
        for change in rescue.changes:
            attempt = change.apply(attempt)
        both = tuple(one for one in lays(answer) if one.key in (key, f"{key}-beside"))
        return Chosen(attempt.orders, both)
    beside = tuple(one for one in lays(answer) if one.key.startswith("beside-"))
    best = next(iter(answer.fit.fits), None)
    with_best = beside if best and best.cut.code == key else ()
    return Chosen(orders, (lay_named(answer, key), *with_best))


def lay_named(answer: FitAnswer | MakingAnswer, key: str) -> AnswerLay:
    """One lay by its name."""
    for found in lays(answer):
        if found.key == key:
            return found
    raise NotFound("no_such_lay")


def _rescue(answer: FitAnswer, key: str) -> Rescue:
    number = key.split("-")[1]
    if not number.isdecimal() or int(number) >= len(answer.rescues):
        raise NotFound("no_such_lay")
    return answer.rescues[int(number)]


def _named(cut: Cut) -> str:
    return f"{cut.cloth.name} {cut.code}"
