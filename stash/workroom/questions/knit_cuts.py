"""A knit is drawn by how far its cloth stretches: each cut is judged by a draft of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.fact import Fact, fact
from stash.match.fit.fit_answer import Candidate, Fit
from stash.match.fit.question import Question
from stash.match.gather import DraftedGarment
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


@dataclass(frozen=True, kw_only=True)
class StretchDrawn:
    """Whether the stretch a knit was drawn by on one cut was measured of it, and what is said.

    Not ``measured``: nobody put on record how far this cloth stretches across, so the draft goes
    by what was chosen or is presumed.
    """

    measured: bool
    told: tuple[Fact, ...]


def stretch_drawn(
    cut: Cut, garments: Sequence[DraftedGarment], *, own: bool
) -> StretchDrawn | None:
    """How the stretch of one cut is known; None where none of the garments relies on any.

    ``own`` says that they are drafted by what was measured of this cut.
    """
    wants = [g.pattern.wants for g in garments if g.pattern.wants.stretch_across_pct]
    if not wants:
        return None
    along = sorted({w.stretch_along_pct for w in wants if w.stretch_along_pct})
    unmeasured = () if cut.cloth.stretch_along_pct else tuple(
        fact("drawn_for_presumed_stretch_along", wanted_along_pct=pct) for pct in along)
    if not cut.cloth.stretch_across_pct:
        across = sorted({w.stretch_across_pct for w in wants})
        return StretchDrawn(measured=False, told=(
            *(fact("drawn_for_presumed_stretch", wanted_across_pct=pct) for pct in across),
            *unmeasured))
    most = max(w.stretch_across_pct for w in wants)
    first = _drawn_for_its(cut) if own else fact(
        "stretches_as_measured", stretch_across_pct=cut.cloth.stretch_across_pct,
        wanted_across_pct=most)
    return StretchDrawn(measured=True, told=(first, *unmeasured))


def _drawn_for_its(cut: Cut) -> Fact:
    cloth = cut.cloth
    if cloth.stretch_along_pct:
        return fact("drawn_for_its_stretch", stretch_across_pct=cloth.stretch_across_pct,
                    stretch_along_pct=cloth.stretch_along_pct)
    return fact("drawn_for_its_stretch_across", stretch_across_pct=cloth.stretch_across_pct)


def _told(candidate: Candidate) -> Candidate:
    suits, note = candidate.suitability, _drawn_for_its(candidate.cut)
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
