"""What has become of a cut since an answer drew a lay on it: gone, changed, or held."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from stash.fact import Fact, Term, fact
from stash.ledger import CutHold
from stash.ledger.event import parts_of
from stash.model import Laid
from stash.store import Stash
from stash.workroom.questions.held import as_reckoned
from stash.workroom.questions.strayed import off_the_cloth


def since_asked(
    stash: Stash, laid: Laid, event: int, own_plans: tuple[str, ...] = ()
) -> tuple[Fact, ...]:
    """What is to be known before this lay is cut, of all that was recorded after ``event``.

    ``own_plans`` hold this very lay: that is no reason to ask again.
    """
    if stash.ledger.newest() <= event:
        return ()
    card = stash.cuts.card(laid.cut.code)
    if card.gone:
        return (fact("cut_gone_since", cut=card.cut.code, how=Term(card.gone)),)
    said = []
    if off := off_the_cloth(replace(laid, cut=as_reckoned(laid.cut.cloth, card.cut))):
        said.append(fact("lay_strayed_since", cut=card.cut.code, count=len(off)))
    low = laid.cut.outline.bounds_mm[0]
    overlapping = [
        hold for hold in card.holds if hold.from_mm < laid.to_mm and low < hold.to_mm]
    said += [
        fact("cut_held_since", cut=card.cut.code, plan=hold.plan) for hold in overlapping
        if hold.plan not in own_plans and _begun(stash, card.cut.code, hold) > event]
    return tuple(said)


def _begun(stash: Stash, code: str, hold: CutHold) -> int:
    """The number of the event since which the plan holds it; 0 where none says so."""
    return next(_holding(stash, code, hold), 0)


def _holding(stash: Stash, code: str, hold: CutHold) -> Iterator[int]:
    for event in stash.ledger.history(code):
        steps = parts_of(event.change.get(code, {}))
        if event.stands and any(step.get("plan") == hold.plan for step in steps):
            yield event.id
