"""What must be bought, exactly: cloth at every width the shop sells, and the notions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from stash.deadline import Deadline
from stash.lay import Budget
from stash.match.gather import Garment, gather, labels, of_role
from stash.match.notions.allocation import missing
from stash.match.notions.wanted import what_to_buy
from stash.match.order import Order
from stash.match.shop.card import Card, ClothToBuy, NotionToBuy
from stash.match.shop.lengths import WIDTHS_SOLD_MM, Bolt, Length, lengths
from stash.match.strip_lays import Strips, Table
from stash.model import ClothWants, Lay, Role
from stash.store import Stash
from stash.units import System, format_mass
from stash.workroom.questions.assignment import MakingAnswer, best_making
from stash.workroom.questions.fitting import Asking, question_of
from stash.workroom.questions.free_stock import free_stash
from stash.workroom.settings import habits, units

__all__ = ["Shop", "ShopAnswer", "ask_shop", "cloth_lines", "what_for", "what_to_buy"]

# Searching is shared among the widths of every line, but none gets less than this.
LEAST_SECONDS = 0.3


@dataclass(frozen=True, kw_only=True)
class Shop:
    """The shop and the cloth hoped for; ``all_cloth`` buys cloth even where the stash has it."""

    widths_mm: tuple[float, ...] = WIDTHS_SOLD_MM
    bolt: Bolt = field(default_factory=Bolt)
    currency: str = ""
    all_cloth: bool = False
    title: str = "To buy"


@dataclass(frozen=True, kw_only=True)
class ShopAnswer:
    """The card, and what the stash makes without it."""

    card: Card
    making: MakingAnswer | None = None

    def to_json(self) -> dict:
        """``{"buy": [...], "from_stash": [...]}``."""
        made = self.making.to_json()["made"] if self.making else []
        return {**self.card.to_json(), "from_stash": made}


def ask_shop(
    stash: Stash, orders: tuple[Order, ...], shop: Shop | None = None,
    asking: Asking | None = None, *, held_cuts: frozenset[str] = frozenset(),
) -> ShopAnswer:
    """What is short for these orders; ``held_cuts`` are those their plans hold already."""
    shop, asking = shop or Shop(), asking or Asking()
    free = free_stash(stash, giving_up=asking.giving_up)
    question = question_of(stash, orders, free, asking)
    if shop.all_cloth:
        question = replace(question, cuts=())
    elif held_cuts:
        question = replace(
            question, cuts=tuple(c for c in question.cuts if c.code in held_cuts)
        )
    making = best_making(question, free, asking, False)
    cloths = cloth_lines(making.unmade_garments, shop, habits(stash), asking, units(stash))
    cloths = tuple(_with_company(cloth, making) for cloth in cloths)
    card = Card(
        title=shop.title, cloths=cloths,
        notions=tuple(NotionToBuy.of(line) for line in missing(making.notions)),
        system=units(stash), currency=shop.currency,
    )
    return ShopAnswer(card=card, making=making)


def cloth_lines(
    garments: tuple[Garment, ...], shop: Shop, table: Table, asking: Asking, system: System
) -> tuple[ClothToBuy, ...]:
    """One line for each garment, and one for all together where one cloth could serve."""
    sets = [(garment,) for garment in garments]
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
            what=what if role is Role.MAIN else f"{what}, its {role.value}",
            lengths=rows, notes=tuple(_notes(group, shop.bolt, role, system)),
        ))
    return tuple(found)


def what_for(group: tuple[Garment, ...], all_of: tuple[Garment, ...]) -> str:
    """"trousers for Bram Okell", "shirt and shorts for Bram Okell"."""
    named = dict(zip(map(id, all_of), labels(all_of), strict=True))
    people = list(dict.fromkeys(g.person for g in group if g.person))
    names = [named[id(g)].removesuffix(f" for {g.person}") for g in group]
    what = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    return f"{what} for {' and '.join(people)}" if people else what


def _rows(strips: Strips, shop: Shop, asking: Asking, share: float) -> tuple[Length, ...]:
    """One row a width, each searched for its share of the seconds."""
    def shortest(width_mm: float) -> tuple[Lay | None, str]:
        deadline = Deadline.after(max(share, LEAST_SECONDS))
        budget = Budget(
            seed=asking.seed, workers=asking.workers, stop=lambda: deadline() or asking.stop()
        )
        answer = strips.best(
            width_mm, budget, one_way=shop.bolt.one_way, repeat=shop.bolt.repeat
        )
        return answer.lay, answer.reason

    return lengths(shop.widths_mm, shop.bolt, shortest)


def _one_cloth(garments: tuple[Garment, ...]) -> bool:
    """True when some weight and making suits every garment."""
    wants = [g.pattern.wants for g in garments]
    shared = set.intersection(*(set(w.constructions) for w in wants))
    return bool(shared) and max(w.mass_gsm[0] for w in wants) <= min(w.mass_gsm[1] for w in wants)


def _notes(
    group: tuple[Garment, ...], bolt: Bolt, role: Role, system: System
) -> Iterable[str]:
    if role is Role.MAIN:
        yield _asked([g.pattern.wants for g in group], system)
    yield (
        f"{bolt.shrink_along_pct:g} % along and {bolt.shrink_across_pct:g} % across are added for "
        "the first wash."
    )
    if bolt.one_way:
        yield "One-way cloth: every piece points the same way."
    if bolt.repeat and bolt.repeat.lengthwise_mm:
        yield "One whole repeat is added, since the bolt may begin anywhere in it."


def _asked(wants: list[ClothWants], system: System) -> str:
    low = max(w.mass_best_gsm[0] for w in wants)
    high = min(w.mass_best_gsm[1] for w in wants)
    if low > high:
        low = max(w.mass_gsm[0] for w in wants)
        high = min(w.mass_gsm[1] for w in wants)
    made = " or ".join(
        c.value for c in wants[0].constructions if all(c in w.constructions for w in wants)
    )
    return f"{made.capitalize()}, {format_mass(low, system)} to {format_mass(high, system)}."


def _with_company(cloth: ClothToBuy, making: MakingAnswer) -> ClothToBuy:
    """The colours made from the stash in the same go, and what in the stash came nearest."""
    colours = [
        (made.cut.cloth.name, made.cut.cloth.colours[0])
        for made in making.made
        if made.cut.cloth.colours
    ]
    near = tuple(
        f"Nearest in the stash for the {label}: {says}" for label, says in making.nearest
    )
    return replace(cloth, colours=tuple(dict.fromkeys(colours)), notes=(*cloth.notes, *near))
