"""What was on the shopping list and is bought now: put on record as it was asked for."""

from __future__ import annotations

from contextlib import suppress

from stash.errors import NotFound
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline
from stash.store import Stash
from stash.workroom import bins, cuts
from stash.workroom.bins import BinRecorded
from stash.workroom.cuts import CutRecorded
from stash.workroom.questions.shopping import ShopAnswer
from stash.workroom.settings import preferences


def still(stash: Stash, code: str) -> bool:
    """True while what was bought is on record: its arrival was not undone."""
    for of in (stash.cuts, stash.bins):
        with suppress(NotFound):
            return of.card(code) is not None
    return False


def notion(
    stash: Stash, answer: ShopAnswer, line: int, name: str, token: str | None = None
) -> BinRecorded:
    """The notion of this line of the list, in the number and put-up it was asked for in."""
    listed = answer.card.notions
    if not 0 <= line < len(listed) or listed[line].sold is None:
        raise NotFound("not_on_the_list")
    wanted, sold = listed[line], listed[line].sold
    assert sold is not None
    amount = float(sold.count) if sold.kind.counted else sold.length_mm or 0.0
    if sold.kind is NotionKind.THREAD:
        amount = sold.count * (sold.put_up_mm or 0.0)
    held = Bin(code="", amount=amount, notion=Notion(
        kind=sold.kind, name=name, size_mm=sold.size_mm, colour=wanted.colour,
    ))
    return bins.receive(stash, held, token=token)


def cloth(
    stash: Stash, answer: ShopAnswer, line: int, row: int, *, name: str, washed: bool = False,
    token: str | None = None,
) -> CutRecorded:
    """The length of this line at one width sold; what can be used is between its selvedges.

    The width is as it was asked for, so it is presumed until somebody measures it.
    """
    listed = answer.card.cloths
    if not 0 <= line < len(listed) or not 0 <= row < len(listed[line].lengths):
        raise NotFound("not_on_the_list")
    bought = listed[line].lengths[row]
    if bought.length_mm is None:
        raise NotFound("not_on_the_list")
    usable_mm = bought.width_mm - 2 * preferences(stash).selvedge_mm
    known = cuts.cloth_named(stash, name)
    return cuts.receive(stash, Cut(
        code="", cloth=known or Cloth(name=name), washed=washed,
        outline=Outline.rectangle(bought.length_mm, usable_mm), width_presumed=True,
    ), token=token)
