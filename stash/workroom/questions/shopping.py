"""What must be bought, exactly: cloth at every width the shop sells, and the notions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from stash.deadline import Deadline
from stash.fact import Fact, Term, fact
from stash.lay import Budget
from stash.match.cloth.suitability import either
from stash.match.gather import DraftedGarment, gather, labels, of_role
from stash.match.notions.allocation import missing
from stash.match.notions.wanted import what_to_buy
from stash.match.order import Order
from stash.match.shop.card import Card, ClothToBuy, NotionToBuy
from stash.match.shop.lengths import WIDTHS_SOLD_MM, Bolt, Length, lengths
from stash.match.strip_lays import Strips, Table
from stash.model import ClothWants, Lay, Role
from stash.store import Stash
from stash.units import System
from stash.workroom.questions.assignment import MakingAnswer, best_making
from stash.workroom.questions.fitting import Asking, question_of, stock_for
from stash.workroom.questions.knit_cuts import each_by_its_stretch
from stash.workroom.questions.machines_asked import machines_asked
from stash.workroom.settings import habits

__all__ = ["Shop", "ShopAnswer", "ask_shop", "cloth_lines", "what_for", "what_to_buy"]

# Searching is shared among the widths of every line, but none gets less than this.
LEAST_SECONDS = 0.3


@dataclass(frozen=True, kw_only=True)
class Shop:
    """The shop and the cloth hoped for; ``all_cloth`` buys cloth even where the stash has it."""

    widths_mm: tuple[float, ...] = WIDTHS_SOLD_MM[System.METRIC]
    bolt: Bolt = field(default_factory=Bolt)
    currency: str = ""
    all_cloth: bool = False
    title: str = "To buy"


@dataclass(frozen=True, kw_only=True)
class FromStash:
    """Garments that need no shopping for cloth: ``labels`` come out of the cut of this code."""

    labels: tuple[str, ...]
    name: str
    code: str


@dataclass(frozen=True, kw_only=True)
class ShopAnswer:
    """The card, what is already here, and how the stash makes that."""

    card: Card
    making: MakingAnswer | None = None
    here: tuple[FromStash, ...] = ()


def ask_shop(
    stash: Stash, orders: tuple[Order, ...], shop: Shop | None = None,
    asking: Asking | None = None, *, held_cuts: frozenset[str] = frozenset(),
) -> ShopAnswer:
    """What is short for these orders; ``held_cuts`` are those their plans hold already."""
    shop, asking = shop or Shop(), asking or Asking()
    free = stock_for(stash, asking)
    question = each_by_its_stretch(orders, question_of(stash, orders, free, asking))
    if shop.all_cloth:
        question = replace(question, cuts=())
    elif held_cuts:
        question = replace(
            question, cuts=tuple(c for c in question.cuts if c.code in held_cuts)
        )
    making = best_making(question, free, asking, False)
    cloths = cloth_lines(making.unmade_garments, shop, habits(stash), asking)
    cloths = tuple(_with_company(cloth, making) for cloth in cloths)
    card = Card(
        title=shop.title, cloths=cloths,
        notions=tuple(
            NotionToBuy.of(line) for line in machines_asked(stash, missing(making.notions))),
        currency=shop.currency,
    )
    here = tuple(
        FromStash(labels=made.labels, name=made.cut.cloth.name, code=made.cut.code)
        for made in making.made)
    return ShopAnswer(card=card, making=making, here=here)


def cloth_lines(
    garments: tuple[DraftedGarment, ...], shop: Shop, table: Table, asking: Asking
) -> tuple[ClothToBuy, ...]:
    """One line for each garment, and one for all together where one cloth could serve."""
    sets: list[tuple[DraftedGarment, ...]] = [(garment,) for garment in garments]
    if len(garments) > 1 and _one_cloth(garments):
        sets.append(garments)
    lines = [
        (group, role, pieces)
        for group in sets
        for role in (Role.MAIN, Role.CONTRAST, Role.LINING)
        if (pieces := of_role(gather(group), role))
    ]
    share = asking.seconds / max(len(lines) * len(shop.widths_mm), 1)
    found = []
    for group, role, pieces in lines:
        rows = _rows(Strips(pieces, table, seed=asking.seed), shop, asking, share)
        what = what_for(group, garments)
        found.append(ClothToBuy(
            what=what if role is Role.MAIN else fact("its_role", what=what, role=Term(role.value)),
            lengths=rows, notes=tuple(_notes(group, shop.bolt, role)),
        ))
    return tuple(found)


def what_for(group: tuple[DraftedGarment, ...], all_of: tuple[DraftedGarment, ...]) -> Fact:
    """"trousers for Bram Okell", "shirt and shorts for Bram Okell"."""
    named = dict(zip(map(id, all_of), labels(all_of), strict=True))
    people = tuple(dict.fromkeys(g.person for g in group if g.person))
    names = tuple(Term(named[id(g)].removesuffix(f" for {g.person}")) for g in group)
    if not people:
        return fact("for_the_garments", garments=names)
    return fact("for_the_garments_of", garments=names, people=people)


def _rows(strips: Strips, shop: Shop, asking: Asking, share: float) -> tuple[Length, ...]:
    """One row a width, each searched for its share of the seconds."""
    def shortest(width_mm: float) -> tuple[Lay | None, Fact | None]:
        deadline = Deadline.after(max(share, LEAST_SECONDS))
        budget = Budget(
            seed=asking.seed, workers=asking.workers, stop=lambda: deadline() or asking.stop()
        )
        answer = strips.best(
            width_mm, budget, one_way=shop.bolt.one_way, repeat=shop.bolt.repeat
        )
        return answer.lay, None if answer.lay else answer.told

    return lengths(shop.widths_mm, shop.bolt, shortest)


def _one_cloth(garments: tuple[DraftedGarment, ...]) -> bool:
    """True when some weight and making suits every garment."""
    wants = [g.pattern.wants for g in garments]
    shared = set.intersection(*(set(w.constructions) for w in wants))
    return bool(shared) and max(w.mass_gsm[0] for w in wants) <= min(w.mass_gsm[1] for w in wants)


def _notes(group: tuple[DraftedGarment, ...], bolt: Bolt, role: Role) -> Iterator[Fact]:
    if role is Role.MAIN:
        wants = [g.pattern.wants for g in group]
        yield _asked(wants)
        if stretch := max(w.stretch_across_pct for w in wants):
            yield fact("cut_for_stretch", stretch_pct=stretch)
    yield fact("wash_is_added", along_pct=bolt.shrink_along_pct, across_pct=bolt.shrink_across_pct)
    if bolt.one_way:
        yield fact("one_way_cloth")
    if bolt.repeat and bolt.repeat.lengthwise_mm:
        yield fact("one_repeat_is_added")


def _asked(wants: list[ClothWants]) -> Fact:
    low = max(w.mass_best_gsm[0] for w in wants)
    high = min(w.mass_best_gsm[1] for w in wants)
    if low > high:
        low = max(w.mass_gsm[0] for w in wants)
        high = min(w.mass_gsm[1] for w in wants)
    made = [c.value for c in wants[0].constructions if all(c in w.constructions for w in wants)]
    return fact("cloth_of", asked=either(made), least_gsm=low, most_gsm=high)


def _with_company(cloth: ClothToBuy, making: MakingAnswer) -> ClothToBuy:
    """The colours made from the stash in the same go, and what in the stash came nearest."""
    colours = [
        (made.cut.cloth.name, made.cut.cloth.colours[0])
        for made in making.made
        if made.cut.cloth.colours
    ]
    near = tuple(
        fact("nearest_in_stash", garment=label, cut=told.values["cut"],
             because=told.values["because"])
        for label, told in making.nearest
    )
    return replace(cloth, colours=tuple(dict.fromkeys(colours)), notes=(*cloth.notes, *near))
