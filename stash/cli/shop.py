"""``lengthwise shop``: what must be bought, and a card to take along."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import click

from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, reader, say
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Repeat
from stash.quantity import Quantity, listed, read_length, read_size
from stash.sentences import Reader, tell
from stash.sentences import say as said
from stash.sentences.garments import garment_said
from stash.workroom import errand
from stash.workroom.errand import Card, HopedFor, Length, cost_text, length_text, width_text
from stash.workroom.questions.shop_json import shop_json
from stash.workroom.questions.shopping import ShopAnswer
from stash.workroom.searching import SECONDS


@click.command()
@click.argument("garments", nargs=-1, metavar="[GARMENT[@NAME]]...")
@click.option("--for", "people", multiple=True, metavar="NAME", help="For whom.")
@click.option("--plan", "name", help="Shop for a plan; without it and garments, for all plans.")
@click.option("--widths", metavar="LIST", help="Widths the shop sells: 90cm,115cm,150cm.")
@click.option("--increment", metavar="LENGTH", help="The shop cuts by this: 10 cm or 1/8 yd.")
@click.option("--price", type=FloatRange(0, 1_000_000), help="Price of a metre.")
@click.option("--currency", default="", help="Written beside the price.")
@click.option("--shrink", default="5x3", show_default=True, metavar="ALONGxACROSS",
              help="Percent lost in the first wash.")
@click.option("--one-way", is_flag=True, help="The cloth hoped for is one-way.")
@click.option("--repeat", metavar="LENGTHxWIDTH", help="Its repeat, for example 64x32cm.")
@click.option("--all-cloth", is_flag=True, help="Buy all cloth new, whatever the stash has.")
@replace_option
@click.option("--card", type=output_file,
              metavar="FILE.html|FILE.pdf", help="Save a card to take along.")
@click.option("--seconds", type=FloatRange(0.1, 3600), default=SECONDS["shop"], show_default=True,
              help="How long to search.")
@json_option
@pass_desk
def command(
    desk: Desk, garments: tuple[str, ...], people: tuple[str, ...], name: str | None,
    widths: str | None, increment: str | None, price: float | None, currency: str, shrink: str,
    one_way: bool, repeat: str | None, all_cloth: bool, card: Path | None, seconds: float,
    as_json: bool,
) -> None:
    """Say what to buy: cloth at each width sold, and the notions that are missing."""
    along, across = _shrink(shrink)
    hoped = HopedFor(
        one_way=one_way, repeat=_repeat(repeat), shrink_along_pct=along, shrink_across_pct=across,
        price_minor_per_m=None if price is None else round(price * 100), currency=currency,
        widths_mm=_widths(widths), all_cloth=all_cloth,
        increment_mm=_step(increment),
    )
    form = form_of(card) if card else ""
    with open_record(desk) as stash:
        wanted = (
            errand.for_garments(stash, garments, people, {}, hoped) if garments
            else errand.for_plans(stash, name, hoped)
        )
        title = _("To buy for {name}", name=name) if name else _("To buy")
        answer, whose = errand.run(stash, wanted, title, seconds, workers=2), reader()
    if card:
        write_output(card, errand.card_file(answer, form, whose))
    say(shop_json(answer, whose), _text(answer, whose), as_json=as_json)


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
