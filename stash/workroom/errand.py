"""An errand: what to shop for, the cloth hoped for, and the shop as the settings know it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from stash.errors import InvalidInput
from stash.match.order import Order
from stash.match.shop.card import Card, cost_text, length_text, width_text
from stash.match.shop.card_html import card_html
from stash.match.shop.card_pdf import card_pdf
from stash.match.shop.lengths import Bolt, Length
from stash.model import Repeat
from stash.sentences import Reader
from stash.store import Stash
from stash.workroom.questions.fitting import Asking
from stash.workroom.questions.orders import orders_for, planned_orders
from stash.workroom.questions.shopping import Shop, ShopAnswer, ask_shop
from stash.workroom.settings import preferences

__all__ = ["Card", "Length", "cost_text", "length_text", "width_text"]


@dataclass(frozen=True, kw_only=True)
class HopedFor:
    """The cloth looked for, and the shop where it is not as the settings say (None: as they do)."""

    one_way: bool = False
    repeat: Repeat | None = None
    shrink_along_pct: float | None = None
    shrink_across_pct: float | None = None
    price_minor_per_m: int | None = None
    currency: str = ""
    widths_mm: tuple[float, ...] | None = None
    increment_mm: float | None = None
    all_cloth: bool = False


@dataclass(frozen=True, kw_only=True)
class Errand:
    """What to shop for; ``plans`` are those it is for, ``held_cuts`` what all of them hold."""

    orders: tuple[Order, ...]
    shop: Shop
    plans: tuple[str, ...] = ()
    held_cuts: frozenset[str] = frozenset()


def for_garments(
    stash: Stash, garments: Sequence[str], people: Sequence[str],
    options: Mapping[str, object], hoped: HopedFor,
) -> Errand:
    """Shop for garments; each is drafted once, so that it can be made at all."""
    orders = orders_for(stash, garments, people, options)
    for order in orders:
        order.drafted()
    return Errand(orders=orders, shop=_shop(stash, hoped))


def for_plans(stash: Stash, name: str | None, hoped: HopedFor) -> Errand:
    """Shop for one plan, or for all that are not made yet."""
    plans = [stash.plans.get(name)] if name else [p for p in stash.plans.all() if not p.made]
    if not plans:
        raise InvalidInput("no_plan_to_shop_for", field="plan")
    orders = tuple(order for plan in plans for order in planned_orders(stash, plan))
    if not orders:
        raise InvalidInput("plan_without_garments", plan=plans[0].name, field="plan")
    held = [frozenset(stash.plans.holdings(plan.name).cuts) for plan in plans]
    return Errand(
        orders=orders, shop=_shop(stash, hoped), plans=tuple(plan.name for plan in plans),
        held_cuts=frozenset.union(*held) if all(held) else frozenset(),
    )


def run(
    stash: Stash, errand: Errand, title: str, seconds: float, *, workers: int = 1,
    stop: Callable[[], bool] | None = None,
) -> ShopAnswer:
    """What is truly short, at every width the shop sells."""
    asking = Asking(seconds=seconds, workers=workers, giving_up=errand.plans)
    if stop:
        asking = replace(asking, stop=stop)
    shop = replace(errand.shop, title=title)
    return ask_shop(stash, errand.orders, shop, asking, held_cuts=errand.held_cuts)


def card_file(answer: ShopAnswer, form: str, reader: Reader) -> bytes:
    """The card to take along, as one file: "html" or "pdf"."""
    if form == "pdf":
        return card_pdf(answer.card, reader)
    return card_html(answer.card, reader).encode()


def _shop(stash: Stash, hoped: HopedFor) -> Shop:
    known, usual = preferences(stash), Bolt()
    along, across = hoped.shrink_along_pct, hoped.shrink_across_pct
    bolt = Bolt(
        one_way=hoped.one_way, repeat=hoped.repeat,
        shrink_along_pct=usual.shrink_along_pct if along is None else along,
        shrink_across_pct=usual.shrink_across_pct if across is None else across,
        selvedge_mm=known.selvedge_mm, price_minor_per_m=hoped.price_minor_per_m,
        increment_mm=hoped.increment_mm or known.increment_mm,
    )
    return Shop(
        widths_mm=hoped.widths_mm or known.widths_mm, bolt=bolt, currency=hoped.currency,
        all_cloth=hoped.all_cloth,
    )
