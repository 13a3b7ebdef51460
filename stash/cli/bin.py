"""``lengthwise bin``: record bins of notions and what is taken from them."""

from __future__ import annotations

from typing import Any

import click

from stash.cli import bin_measure
from stash.cli.cloth_options import colour
from stash.cli.frame import Desk, json_option, pass_desk, say, told
from stash.cli.instead import only_one
from stash.cli.open_record import (
    bin_json,
    bin_line,
    event_json,
    history_lines,
    open_record,
    say_bin,
    short_holds,
    told_json,
)
from stash.cli.words import _
from stash.model import Bin, Notion, NotionKind
from stash.model.amounts import read_amount, read_notion_size
from stash.quantity import Quantity, read_length
from stash.units import parse_mass
from stash.workroom import bins, explaining, figures, history, origins

SHARES = {"about half": 0.5, "half": 0.5, "about a third": 1 / 3, "about a quarter": 0.25,
          "all": 1.0, "used up": 1.0}


@click.group()
def command() -> None:
    """Record bins of notions, and what is taken from them."""


command.add_command(bin_measure.measure)
command.add_command(bin_measure.weigh)


@command.command()
@click.argument("kind", type=click.Choice([kind.value for kind in NotionKind]))
@click.argument("name")
@click.argument("amount")
@click.option("--size", help="Diameter of a button, length of a zip, width of elastic: 18L, 25mm.")
@click.option("--colour", "colour_typed", help="By its name or like #7a1f2b.")
@click.option("--material", default="", help="What it is made of.")
@click.option("--fusible", is_flag=True, help="Interfacing that is ironed on.")
@click.option("--shortenable", is_flag=True, help="A zip that may be shortened.")
@click.option("--thickness", help="How thick a button is, for example 4mm.")
@click.option("--shank", is_flag=True, help="A button that is domed or on a shank.")
@click.option("--mass", help="Weight of interfacing, for example 60 g/m2.")
@click.option("--place", help="Where it stands: a name, or the code of a place's label.")
@click.option("--notes", default="", help="Anything else.")
@click.option("--code", help="The code of the blank label that was put on it.")
@json_option
@pass_desk
def add(desk: Desk, /, kind: str, name: str, amount: str, as_json: bool, **typed: Any) -> None:
    """Record a new bin: its KIND, NAME, and AMOUNT (a count, or a length such as 12m)."""
    notion = Notion(
        kind=NotionKind(kind),
        name=" ".join(name.split()),
        size_mm=read_notion_size(NotionKind(kind), typed["size"] or ""),
        colour=colour(typed["colour_typed"]) if typed["colour_typed"] else None,
        material=typed["material"],
        fusible=typed["fusible"],
        shortenable=typed["shortenable"],
        thickness_mm=_thickness(typed["thickness"]),
        shank=typed["shank"],
        mass_gsm=parse_mass(typed["mass"]) if typed["mass"] else None,
        notes=typed["notes"],
    )
    held = Bin(code="", notion=notion, amount=read_amount(notion.kind, amount),
               place=typed["place"])
    with open_record(desk) as stash:
        say_bin(bins.receive(stash, held, typed["code"]), as_json)


def _thickness(text: str | None) -> float | None:
    return read_length(text, Quantity.MARGIN, field="thickness") if text else None


@command.command()
@click.argument("code")
@json_option
@pass_desk
def show(desk: Desk, code: str, as_json: bool) -> None:
    """Show a bin and its history."""
    with open_record(desk) as stash:
        card, events = bins.card(stash, code), history.of(stash, code)
        figure = figures.figure_of(stash, card.bin.code)
        shown = origins.of_bin(stash, card.bin)
        coloured = origins.said_of_colour(stash, card.bin)
        seen = origins.colour_known(stash, card.bin)
        past, short = history_lines(stash, events), short_holds(card)
        lines = explaining.bin_account(stash, card.bin.code)
    value = {
        **bin_json(card), "changed_since": told_json(short),
        "measured": figures.figure_json(figure),
        "figures": origins.figures_json(shown), "colour_known": seen,
        "remaining": [
            {"amount": line.amount, "kind": line.kind, "fact": line.why.to_json(),
             "says": told(line.why)} for line in lines],
        "history": [event_json(event) for event in events],
    }
    known = map(told, (*short, *origins.said_of(shown), *coloured))
    why = "  " + ", ".join(told(line.why) for line in lines)
    text = "\n".join([bin_line(card), *known, why, *past])
    say(value, text, as_json=as_json)


@command.command("list")
@click.option("--kind", type=click.Choice([kind.value for kind in NotionKind]), help="Only these.")
@click.option("--words", help="Only bins with these words in their name, colour or notes.")
@click.option("--gone", is_flag=True, help="Those that are no longer here.")
@json_option
@pass_desk
def list_(desk: Desk, kind: str | None, words: str | None, gone: bool, as_json: bool) -> None:
    """List the bins that are here, newest first."""
    with open_record(desk) as stash:
        cards = bins.cards(stash, gone=gone, kind=kind, words=words)
    none = (_("No bin answers to that.") if gone or kind or words
            else _("No bin of notions is on record here yet."))
    text = "\n".join(map(bin_line, cards)) or none
    say({"bins": [bin_json(card) for card in cards]}, text, as_json=as_json)


@command.command()
@click.argument("code")
@click.argument("amount")
@click.option("--plan", help="For this plan.")
@click.option("--despite-hold", is_flag=True, help="Even if a plan holds it.")
@json_option
@pass_desk
def take(
    desk: Desk, code: str, amount: str, plan: str | None, despite_hold: bool, as_json: bool
) -> None:
    """Take an AMOUNT out of a bin ("5", "1.2m", "about half", "used up")."""
    share = SHARES.get(" ".join(amount.lower().split()))
    with open_record(desk) as stash:
        if share is not None:
            done = bins.take_share(stash, code, share, plan=plan, despite_hold=despite_hold)
        else:
            number = read_amount(bins.held(stash, code).notion.kind, amount)
            done = bins.take(stash, code, number, plan=plan, despite_hold=despite_hold)
        say_bin(done, as_json)


@command.command()
@click.argument("code")
@click.argument("amount")
@json_option
@pass_desk
def put(desk: Desk, code: str, amount: str, as_json: bool) -> None:
    """Put an AMOUNT more of the same into a bin."""
    with open_record(desk) as stash:
        number = read_amount(bins.held(stash, code).notion.kind, amount)
        say_bin(bins.put(stash, code, number), as_json)


@command.command()
@click.argument("code")
@click.argument("amount")
@json_option
@pass_desk
def count(desk: Desk, code: str, amount: str, as_json: bool) -> None:
    """Say that a bin was counted or measured, and the AMOUNT that is in it."""
    with open_record(desk) as stash:
        number = read_amount(bins.held(stash, code).notion.kind, amount)
        say_bin(bins.count(stash, code, number), as_json)


@command.command()
@click.argument("code")
@click.argument("place")
@json_option
@pass_desk
def move(desk: Desk, code: str, place: str, as_json: bool) -> None:
    """Put a bin in another PLACE: its name, or the code of its label."""
    with open_record(desk) as stash:
        say_bin(bins.move(stash, code, place), as_json)


@command.command()
@click.argument("code")
@click.option("--given", is_flag=True, help="It was given away.")
@click.option("--thrown", is_flag=True, help="It was thrown away.")
@json_option
@pass_desk
def gone(desk: Desk, code: str, given: bool, thrown: bool, as_json: bool) -> None:
    """Record that a bin is no longer here."""
    only_one(given=given, thrown=thrown)
    with open_record(desk) as stash:
        leave = bins.give_away if given else bins.throw_away
        say_bin(leave(stash, code), as_json)
