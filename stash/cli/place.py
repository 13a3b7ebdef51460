"""``lengthwise place``: shelves, boxes and drawers, and what lies in them."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.record import bin_line, cut_line, event_json, open_record
from stash.errors import InvalidInput, NotFound
from stash.store import Stash
from stash.store.places import Place


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
        event = stash.places.receive(name, code, notes=notes)
        place = stash.places.get(event.code)
    say({**event_json(event), "name": place.name}, f"{place.code}  {place.name}", as_json=as_json)


@command.command("list")
@json_option
@pass_desk
def list_(desk: Desk, as_json: bool) -> None:
    """List every place, with how many things lie there."""
    with open_record(desk) as stash:
        labelled = {place.name: place.code for place in stash.places.all()}
        places = [
            {"name": name, "code": labelled.get(name), "things": len(stash.places.contents(name))}
            for name in stash.places.names()
        ]
    lines = [f"{p['code'] or 'no label'}  {p['name']}, {p['things']} things" for p in places]
    say({"places": places}, "\n".join(lines) or "There are no places yet.", as_json=as_json)


@command.command()
@click.argument("place")
@json_option
@pass_desk
def show(desk: Desk, place: str, as_json: bool) -> None:
    """Show what lies in a PLACE: its name, or the code of its label."""
    with open_record(desk) as stash:
        found = _find(stash, place)
        codes = stash.places.contents(found.name)
        lines = [
            cut_line(stash.cuts.card(c)) if stash.labels.state(c) == "cut"
            else bin_line(stash.bins.card(c))
            for c in codes
        ]
    text = "\n".join([found.name, *(f"  {line}" for line in lines)])
    value = {"name": found.name, "code": found.code or None, "contents": codes}
    say(value, text, as_json=as_json)


def _find(stash: Stash, typed: str) -> Place:
    """A labelled place by code or name, or a name that things are said to lie in."""
    try:
        return stash.places.get(typed)
    except (InvalidInput, NotFound):
        pass
    if place := stash.places.find(typed):
        return place
    if stash.places.contents(typed):
        return Place(code="", name=typed)
    known = ", ".join(stash.places.names()[:12]) or "none yet"
    raise NotFound(f"There is no place “{typed}”. Places on record: {known}.")
