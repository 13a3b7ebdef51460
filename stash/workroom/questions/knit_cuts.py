"""A knit is drawn by how far its cloth stretches: each cut is judged by a draft of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.fact import fact
from stash.match.fit.fit_answer import Candidate, Fit
from stash.match.fit.question import Question
from stash.match.order import Order
from stash.model import Cut
from stash.workroom.drafts import for_cloth


@dataclass(frozen=True, kw_only=True)
class CutsAlike:
    """Cuts for which the garments are drafted alike, and the orders as they are for them.

    ``own`` says that the draft follows what was measured of these cuts.
    """

    orders: tuple[Order, ...]
    cuts: tuple[Cut, ...]
    own: bool = False

    def told(self, found: Fit) -> Fit:
        """The answer, each of its cuts saying by which stretch it was drafted."""
        if not self.own:
            return found
        return replace(found, candidates=tuple(map(_told, found.candidates)))


def _told(candidate: Candidate) -> Candidate:
    cloth, suits = candidate.cut.cloth, candidate.suitability
    if cloth.stretch_along_pct:
        note = fact("drawn_for_its_stretch", stretch_across_pct=cloth.stretch_across_pct,
                    stretch_along_pct=cloth.stretch_along_pct)
    else:
        note = fact("drawn_for_its_stretch_across", stretch_across_pct=cloth.stretch_across_pct)
    return replace(candidate, suitability=replace(suits, notes=(*suits.notes, note)))


def alike(orders: tuple[Order, ...], cuts: Sequence[Cut]) -> tuple[CutsAlike, ...]:
    """The cuts in groups for which the orders are drafted alike; one group where none is a knit.

    Where nobody measured a cloth the draft goes by what is presumed, as it does without a cut.
    """
    groups: list[tuple[tuple[Order, ...], list[Cut]]] = []
    for cut in cuts:
        drawn = tuple(_drawn_for(order, cut) for order in orders)
        same = next((own for known, own in groups if known == drawn), None)
        if same is None:
            groups.append((drawn, [cut]))
        else:
            same.append(cut)
    return tuple(
        CutsAlike(orders=drawn, cuts=tuple(own), own=drawn != orders) for drawn, own in groups
    ) or (CutsAlike(orders=orders, cuts=()),)


def each_by_its_stretch(orders: tuple[Order, ...], question: Question) -> Question:
    """The question with the garments drafted for each cut whose measured stretch asks for it; for
    all other cuts, and for cloth yet to be bought, they go by what was chosen or is presumed.
    """
    own = {
        cut.code: drafts
        for group in alike(orders, question.cuts) if group.own
        for drafts in [tuple(order.drafted() for order in group.orders)] for cut in group.cuts
    }
    return replace(question, own=own) if own else question


def _drawn_for(order: Order, cut: Cut) -> Order:
    if order.pattern:
        return order
    options = for_cloth(order.garment, order.options, cut.cloth)
    return order if options == order.options else replace(order, options=options)
