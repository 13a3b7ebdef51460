"""What to buy, as other programs read it."""

from __future__ import annotations

from stash.match.shop.card import Card, ClothToBuy, NotionToBuy
from stash.match.shop.lengths import Length
from stash.model import NotionKind
from stash.model.wire import facts_json, tenths
from stash.notions.as_sold import Sold
from stash.sentences import Reader, quantities, say, tell
from stash.workroom.questions.answer_json import made_json
from stash.workroom.questions.plan_json import Json
from stash.workroom.questions.shopping import ShopAnswer


def shop_json(answer: ShopAnswer, reader: Reader) -> Json:
    """``{"buy": [...], "from_stash": [...]}``, cloth first."""
    made = answer.making.made if answer.making else ()
    return {"buy": _buy(answer.card, reader),
            "from_stash": [made_json(one, reader) for one in made]}


def _buy(card: Card, reader: Reader) -> list[Json]:
    return [
        *(_cloth_to_buy(cloth, reader) for cloth in card.cloths),
        *(_notion_to_buy(notion, reader) for notion in card.notions),
    ]


def _cloth_to_buy(cloth: ClothToBuy, reader: Reader) -> Json:
    return {
        "what": say(cloth.what, reader),
        "what_fact": cloth.what.to_json(),
        "kind": "cloth",
        "lengths": [_length(length, reader) for length in cloth.lengths],
        "notes": [say(note, reader) for note in cloth.notes],
        "note_facts": facts_json(cloth.notes),
        "count": None,
        "size_mm": None,
    }


def _length(length: Length, reader: Reader) -> Json:
    return {
        "width_mm": length.width_mm,
        "length_mm": tenths(length.length_mm),
        "lay_mm": tenths(length.lay_mm),
        "cost_minor": length.cost_minor,
        "reason": say(length.because, reader) if length.because else "",
    }


def _notion_to_buy(notion: NotionToBuy, reader: Reader) -> Json:
    return {
        "what": notion.kind,
        "says": say(notion.what, reader),
        "what_fact": notion.what.to_json(),
        "kind": notion.kind,
        "count": notion.count,
        **(_sold(notion.sold, reader) if notion.sold else {}),
        "length_mm": tenths(notion.length_mm),
        "size_mm": notion.size_mm and round(notion.size_mm, 2),
        "nearest": tell(notion.nearest, reader),
        "lengths": [],
    }


def _sold(sold: Sold, reader: Reader) -> Json:
    """How a shop sells it; thread by the spool, each of ``put_up_m``."""
    if sold.kind is NotionKind.THREAD:
        return {
            "use": sold.use, "spools": sold.count, "count": sold.count, "put_up": sold.put_up,
            "put_up_m": (sold.put_up_mm or 0.0) / 1000,
            "metres": round((sold.needed_mm or 0.0) / 1000, 1),
            "sold_as": quantities.thread(sold.put_up_mm or 0.0, reader),
        }
    size = sold.size_mm
    if sold.kind is NotionKind.BUTTON and size is not None:
        size_text = quantities.button(size, reader)
    else:
        size_text = quantities.written("size_mm", size, reader) if size is not None else ""
    return {
        "count": sold.count if sold.kind.counted else None,
        "sold_as": size_text if sold.kind.counted or not sold.length_mm
        else quantities.length(sold.length_mm, reader),
    }
