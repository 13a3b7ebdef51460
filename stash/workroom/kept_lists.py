"""A shopping list as it is kept and read again: the card, and what was already here."""

from __future__ import annotations

from typing import Any

from stash.match.shop.card import Card, ClothToBuy, NotionToBuy
from stash.match.shop.lengths import Length
from stash.model.exact import from_plain, to_plain
from stash.notions.as_sold import Sold
from stash.workroom.kept_facts import fact_of, facts_of, plain_of, plain_of_all
from stash.workroom.questions.shopping import FromStash, ShopAnswer


def list_plain(answer: ShopAnswer) -> dict[str, Any]:
    """As it is written: facts as facts, numbers to the last bit."""
    card = answer.card
    return {
        "title": card.title, "currency": card.currency,
        "cloths": [_cloth_plain(one) for one in card.cloths],
        "notions": [_notion_plain(one) for one in card.notions],
        "here": to_plain(answer.here),
    }


def list_read(plain: dict[str, Any]) -> ShopAnswer:
    """The list that :func:`list_plain` wrote."""
    card = Card(
        title=plain["title"], currency=plain["currency"],
        cloths=tuple(_cloth(one) for one in plain["cloths"]),
        notions=tuple(_notion(one) for one in plain["notions"]),
    )
    return ShopAnswer(card=card, here=tuple(from_plain(FromStash, one) for one in plain["here"]))


def _cloth_plain(cloth: ClothToBuy) -> dict[str, Any]:
    return {
        "what": plain_of(cloth.what), "notes": plain_of_all(cloth.notes),
        "colours": to_plain(cloth.colours), "lengths": [
            {"width_mm": one.width_mm, "length_mm": one.length_mm, "lay_mm": one.lay_mm,
             "cost_minor": one.cost_minor, "lay": to_plain(one.lay),
             "because": plain_of(one.because)} for one in cloth.lengths],
    }


def _cloth(plain: dict[str, Any]) -> ClothToBuy:
    return ClothToBuy(
        what=fact_of(plain["what"]), notes=facts_of(plain["notes"]),
        colours=tuple((name, colour) for name, colour in plain["colours"]),
        lengths=tuple(_length(one) for one in plain["lengths"]),
    )


def _length(plain: dict[str, Any]) -> Length:
    because = plain.pop("because")
    read = from_plain(Length, plain)
    return Length(
        width_mm=read.width_mm, length_mm=read.length_mm, lay_mm=read.lay_mm,
        cost_minor=read.cost_minor, lay=read.lay, because=fact_of(because) if because else None,
    )


def _notion_plain(notion: NotionToBuy) -> dict[str, Any]:
    return {
        "what": plain_of(notion.what), "kind": notion.kind, "count": notion.count,
        "length_mm": notion.length_mm, "size_mm": notion.size_mm, "colour": notion.colour,
        "nearest": plain_of_all(notion.nearest), "sold": to_plain(notion.sold),
    }


def _notion(plain: dict[str, Any]) -> NotionToBuy:
    return NotionToBuy(
        what=fact_of(plain["what"]), kind=plain["kind"], count=plain["count"],
        length_mm=plain["length_mm"], size_mm=plain["size_mm"], colour=plain["colour"],
        nearest=facts_of(plain["nearest"]),
        sold=from_plain(Sold, plain["sold"]) if plain["sold"] else None,
    )
