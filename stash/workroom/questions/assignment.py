"""Which of these can I make, and from what? The best assignment over the whole stash."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.fact import Fact, fact
from stash.match.fit.question import Question
from stash.match.gather import DraftedGarment, labels
from stash.match.notions.allocation import missing, promise
from stash.match.notions.supplies import wanted_on
from stash.match.notions.wanted import Line, Wanted
from stash.match.order import Order
from stash.match.sharing.assign import LaidOption
from stash.match.sharing.share import Shared, share
from stash.model import Cut, Laid
from stash.store import Stash
from stash.workroom.questions.fitting import Asking, question_of, stock_for
from stash.workroom.questions.free_stock import FreeStock
from stash.workroom.questions.knit_cuts import StretchDrawn, each_by_its_stretch, stretch_drawn


@dataclass(frozen=True, kw_only=True)
class Made:
    """Garments that come out of one cut, by their labels, and their lay.

    ``stretch`` is how the stretch they rely on is known; None where they rely on none.
    """

    labels: tuple[str, ...]
    laid: Laid
    stretch: StretchDrawn | None = None

    @property
    def cut(self) -> Cut:
        """What they come out of."""
        return self.laid.cut

    @property
    def left_mm(self) -> float:
        """Length beyond the lay."""
        return self.laid.spare_mm


@dataclass(frozen=True, kw_only=True)
class MakingAnswer:
    """What is made from what, what is left over, and the notions for all of it.

    ``proven`` when no way makes more of them; ``nearest``
    says of each garment that comes out of no cut how near it came.
    """

    garments: tuple[DraftedGarment, ...]
    made: tuple[Made, ...]
    unmade: tuple[str, ...]
    notions: tuple[Line, ...]
    proven: bool
    nearest: tuple[tuple[str, Fact], ...] = ()

    @property
    def unmade_garments(self) -> tuple[DraftedGarment, ...]:
        """The garments that come out of no cut."""
        named = zip(labels(self.garments), self.garments, strict=True)
        return tuple(garment for label, garment in named if label in self.unmade)


def ask_making(
    stash: Stash, orders: tuple[Order, ...], asking: Asking | None = None, *,
    without_buying: bool = False,
) -> MakingAnswer:
    """The most garments the free stash makes; ``without_buying`` counts notions too."""
    asking = asking or Asking()
    free = stock_for(stash, asking)
    question = each_by_its_stretch(orders, question_of(stash, orders, free, asking))
    return best_making(question, free, asking, without_buying)


def best_making(
    question: Question, free: FreeStock, asking: Asking, without_buying: bool
) -> MakingAnswer:
    """The assignment for garments already drafted."""
    table = _Garments(question, free)
    found = share(
        question, asking.effort(), table.supplied if without_buying else lambda chosen: True
    )
    return table.answer(found)


class _Garments:
    """The garments by label, and what options need of the bins."""

    def __init__(self, question: Question, free: FreeStock):
        self.question = question
        self.free = free
        self.labels = labels(question.garments)

    def supplied(self, chosen: Sequence[LaidOption]) -> bool:
        """True when the bins hold the notions for all these options together."""
        return not missing(promise(self._wanted(chosen), self.free.bins))

    def answer(self, shared: Shared) -> MakingAnswer:
        """The assignment with lays, pieces and notions."""
        found = shared.assignment
        wanted = [*self._wanted(found.chosen), *self._wanted_of(found.unmade, None)]
        return MakingAnswer(
            garments=self.question.garments,
            made=tuple(
                self._made(option, option.laid) for option in found.chosen if option.laid),
            unmade=found.unmade,
            notions=promise(wanted, self.free.bins),
            proven=found.proven,
            nearest=tuple(
                (label, fact("nearest_cut", cut=f"{c.cut.cloth.name} {c.cut.code}",
                             because=c.verdict.told))
                for label, c in shared.nearest
            ),
        )

    def _made(self, option: LaidOption, laid: Laid) -> Made:
        names = self._in_order(option)
        named = dict(zip(self.labels, self.question.garments_on(option.cut), strict=True))
        own = option.cut in self.question.own
        return Made(labels=names, laid=laid, stretch=stretch_drawn(
            laid.cut, [named[name] for name in names], own=own))

    def _wanted(self, chosen: Sequence[LaidOption]) -> list[Wanted]:
        return [
            want
            for option in chosen
            for want in self._wanted_of(self._in_order(option), self.free.cut(option.cut))
        ]

    def _wanted_of(self, names: Sequence[str], cut: Cut | None) -> list[Wanted]:
        drafts = self.question.garments_on(cut.code) if cut else self.question.garments
        named = dict(zip(self.labels, drafts, strict=True))
        own = labels([named[n] for n in names])
        back = dict(zip(own, names, strict=True))
        wanted = wanted_on([named[n] for n in names], cut)
        return [replace(want, garment=back[want.garment]) for want in wanted]

    def _in_order(self, option: LaidOption) -> tuple[str, ...]:
        return tuple(name for name in self.labels if name in option.garments)
