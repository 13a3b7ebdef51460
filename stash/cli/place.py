"""``lengthwise place``: shelves, boxes and drawers, and what lies in them."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.open_record import bin_line, cut_line, event_json, open_record
from stash.cli.words import _
from stash.workroom import places


@click.group()
def command() -> None:
    """Give shelves, boxes and drawers a label, and see what lies in them."""


@command.command()
@click.argument("name")
@click.option("--code", help="The code of the blank label that was put on it.")
@click.option("--notes", default="", help="Anything else.")
@json_option
@pass_desk
def add(desk: Desk, name: str, code: str | None, notes: str, as_json: bool) -> None:
    """Give a place a label, under its NAME."""
    with open_record(desk) as stash:
        event, place = places.receive(stash, name, code, notes=notes)
    say({**event_json(event), "name": place.name}, f"{place.code}  {place.name}", as_json=as_json)


@command.command("list")
@json_option
@pass_desk
def list_(desk: Desk, as_json: bool) -> None:
    """List every place, with how many things lie there."""
    with open_record(desk) as stash:
        rows = places.rows(stash)
    value = [{"name": row.name, "code": row.code, "things": row.things} for row in rows]
    lines = [_(
        "{code}  {name}, things: {things}",
        code=row.code or _("no label"), name=row.name, things=row.things,
    ) for row in rows]
    say({"places": value}, "\n".join(lines) or _("There are no places yet."), as_json=as_json)


@command.command()
@click.argument("place")
@json_option
@pass_desk
def show(desk: Desk, place: str, as_json: bool) -> None:
    """Show what lies in a PLACE: its name, or the code of its label."""
    with open_record(desk) as stash:
        here = places.contents(stash, places.find(stash, place))
    found = here.place
    lines = {card.cut.code: cut_line(card) for card in here.cuts}
    lines |= {card.bin.code: bin_line(card) for card in here.bins}
    text = "\n".join([found.name, *(f"  {lines[code]}" for code in here.codes)])
    value = {"name": found.name, "code": found.code or None, "contents": here.codes}
    say(value, text, as_json=as_json)
