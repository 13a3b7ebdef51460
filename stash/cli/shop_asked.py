"""What ``shop`` asks and how its answer is said; it lays, and is loaded only when it does."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from stash.cli.frame import Desk, reader
from stash.cli.open_record import open_record
from stash.cli.output import write_output
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Repeat
from stash.quantity import Quantity, listed, read_length, read_size
from stash.sentences import Reader, tell
from stash.sentences import say as said
from stash.sentences.garments import garment_said
from stash.workroom import errand
from stash.workroom.errand import Card, HopedFor, Length, cost_text, length_text, width_text
from stash.workroom.questions.plan_json import Json
from stash.workroom.questions.shop_json import shop_json
from stash.workroom.questions.shopping import ShopAnswer


def shopped(desk: Desk, typed: Mapping[str, Any]) -> tuple[Json, str]:
    """The answer to the options typed, for a program and for a person; its card is saved."""
    card, hoped = typed["card"], _hoped(typed)
    form = form_of(card) if card else ""
    with open_record(desk) as stash:
        wanted = (
            errand.for_garments(stash, typed["garments"], typed["people"], {}, hoped)
            if typed["garments"] else errand.for_plans(stash, typed["name"], hoped))
        title = _("To buy for {name}", name=typed["name"]) if typed["name"] else _("To buy")
        answer = errand.run(stash, wanted, title, typed["seconds"], workers=2)
        whose = reader()
    if card:
        write_output(card, errand.card_file(answer, form, whose))
    return shop_json(answer, whose), _text(answer, whose)


def _hoped(typed: Mapping[str, Any]) -> HopedFor:
    along, across = _shrink(typed["shrink"])
    price = typed["price"]
    return HopedFor(
        one_way=typed["one_way"], repeat=_repeat(typed["repeat"]), shrink_along_pct=along,
        shrink_across_pct=across, price_minor_per_m=None if price is None else round(price * 100),
        currency=typed["currency"], widths_mm=_widths(typed["widths"]),
        all_cloth=typed["all_cloth"], increment_mm=_step(typed["increment"]),
    )


def form_of(path: Path) -> str:
    """The form in which a card is saved under this name."""
    form = {".pdf": "pdf", ".html": "html", ".htm": "html"}.get(path.suffix.lower())
    if form is None:
        raise InvalidInput("card_form_wanted", field="card")
    return form


def _step(text: str | None) -> float | None:
    return read_length(text, Quantity.STEP, field="increment") if text else None


def _widths(text: str | None) -> tuple[float, ...] | None:
    if text is None:
        return None
    found = tuple(
        read_length(part, Quantity.WIDTH, field="widths") for part in listed(text))
    if not found or len(found) > 12:
        raise InvalidInput("widths_to_name", field="widths")
    return found


def _shrink(text: str) -> tuple[float, float]:
    parts = text.replace("%", "").lower().split("x")
    try:
        along, across = (float(part.replace(",", ".")) for part in parts)
    except ValueError:
        raise InvalidInput("not_shrinkage", field="shrink") from None
    if not (0 <= along < 30 and 0 <= across < 30):
        raise InvalidInput("shrinks_between", least_pct=0, most_pct=30, field="shrink")
    return along, across


def _repeat(text: str | None) -> Repeat | None:
    if text is None:
        return None
    along, across = read_size(text, Quantity.REPEAT, Quantity.REPEAT, field="repeat")
    return Repeat(lengthwise_mm=along or None, crosswise_mm=across or None)


def _text(answer: ShopAnswer, whose: Reader) -> str:
    card = answer.card
    lines = []
    for made in answer.making.made if answer.making else ():
        lines.append(_(
            "{called} from {code}  {name}",
            called=_called(made.labels, whose), code=made.cut.code, name=made.cut.cloth.name,
        ))
    for cloth in card.cloths:
        lines.append(_("Cloth for {what}:", what=said(cloth.what, whose)))
        lines += [f"  {_row(length, card, whose)}" for length in cloth.lengths]
        lines += [f"  {said(note, whose)}" for note in cloth.notes]
    for notion in card.notions:
        lines.append(f"{said(notion.what, whose)}. {tell(notion.nearest, whose)}")
    if not card.cloths and not card.notions:
        lines.append(_("There is nothing to buy."))
    return "\n".join(lines)


def _row(length: Length, card: Card, whose: Reader) -> str:
    cost = cost_text(length, card.currency, whose)
    return _(
        "{width} wide: {length}  {cost}",
        width=width_text(length, whose), length=length_text(length, whose), cost=cost,
    ).rstrip()


def _called(labels: Iterable[str], whose: Reader) -> str:
    return _(" and ").join(garment_said(label, whose) for label in labels)
