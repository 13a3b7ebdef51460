"""``lengthwise need``: how much cloth of a given width these garments take."""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, reader, say
from stash.cli.open_record import open_record
from stash.cli.person import parse_measure
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Repeat, Spread
from stash.quantity import Quantity, read_length, read_size
from stash.sentences import Reader
from stash.sentences import say as said
from stash.workroom.questions.answer_json import need_answer_json
from stash.workroom.questions.needing import NeedAnswer, Roll, ask_need
from stash.workroom.questions.orders import measured_orders
from stash.workroom.searching import SECONDS
from stash.workroom.settings import habits

WIDEST_MM = 10_000.0


@click.command()
@click.argument("garments", nargs=-1, required=True, metavar="GARMENT...")
@click.option("--measure", "measures", multiple=True, metavar="TERM=LENGTH",
              help="For example hip=100cm; may be repeated.")
@click.option("--for", "people", multiple=True, metavar="NAME",
              help="Use the measurements of a person on record.")
@click.option("--body", type=click.Choice(["women", "men", "children"]),
              help="The body table for what was not measured.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="For example length=45cm; may be repeated.")
@click.option("--width", required=True, metavar="LENGTH", help="Usable width, for example 114cm.")
@click.option("--one-way", is_flag=True, help="Every piece points the same way.")
@click.option("--repeat", metavar="LENGTHxWIDTH", help="Repeat of the print, for example 64x32cm.")
@click.option("--spread", type=click.Choice(["open", "lengthwise", "crosswise", "any"]),
              default="open", show_default=True, help="How the cloth lies on the table.")
@click.option("--seconds", type=FloatRange(0.1, 3600), default=SECONDS["need"], show_default=True,
              help="How long to search.")
@json_option
@pass_desk
def command(
    desk: Desk, garments: tuple[str, ...], measures: tuple[str, ...], people: tuple[str, ...],
    body: str | None, choices: tuple[str, ...], width: str, one_way: bool, repeat: str | None,
    spread: str, seconds: float, as_json: bool,
) -> None:
    """Say the shortest length of cloth found for these garments, with its lay."""
    roll = Roll(width_mm=_width(width), one_way=one_way, repeat=_repeat(repeat))
    with open_record(desk) as stash:
        table = habits(stash, None if spread == "any" else Spread(spread))
        orders = measured_orders(
            stash, garments, people, dict(map(parse_measure, measures)), body,
            dict(map(parse_option, choices)))
        whose = reader()
    answer = ask_need(orders, roll, table, seconds=seconds, workers=2)
    say(need_answer_json(answer, whose), _text(answer, whose), as_json=as_json)


def _width(text: str) -> float:
    width_mm = read_length(text, Quantity.WIDTH, field="width")
    if width_mm > WIDEST_MM:
        raise InvalidInput("cloth_too_wide", most_width_mm=WIDEST_MM, field="width")
    return width_mm


def _repeat(text: str | None) -> Repeat | None:
    if text is None:
        return None
    along, across = read_size(text, Quantity.REPEAT, Quantity.REPEAT, field="repeat")
    return Repeat(lengthwise_mm=along or None, crosswise_mm=across or None)


def _text(answer: NeedAnswer, whose: Reader) -> str:
    lay = answer.answer.lay
    if not lay:
        return said(answer.answer.told, whose)
    return (
        _(
            "{length} of cloth {width} wide; {utilisation} of it becomes the garment.",
            length=written.cut_length(lay.length_mm), width=written.width(answer.width_mm),
            utilisation=format(lay.utilisation, ".0%"),
        )
    )
