"""``lengthwise far``: how long, how wide, how full, how many from what is here."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say, told
from stash.workroom.searching import SECONDS


@click.command()
@click.argument("garment", metavar="GARMENT[@NAME]")
@click.option("--for", "person", metavar="NAME", help="For whom it is made.")
@click.option("--grow", required=True, metavar="OPTION",
              help="What is to grow: an option that is a length, or copies.")
@click.option("--against", metavar="OPTION", help="Draw it against a second option.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="What else is chosen; may be repeated.")
@click.option("--cut", metavar="CODE", help="Ask about one cut only.")
@click.option("--seconds", type=FloatRange(0.1, 600), default=None,
              help="How long the whole question may take; "
              f"usually {SECONDS['far']:g}, for one cut {SECONDS['far_on_one']:g}.")
@json_option
@pass_desk
def command(
    desk: Desk, garment: str, person: str | None, grow: str, against: str | None,
    choices: tuple[str, ...], cut: str | None, seconds: float | None,
    as_json: bool,
) -> None:
    """Say how far an option of GARMENT goes on each suitable cut, with its lay."""
    # The lay and the record are loaded with the first question.
    from stash.cli.draft_option import parse_option
    from stash.cli.open_record import open_record
    from stash.workroom.questions.farthest import Farther, ask_far
    from stash.workroom.questions.orders import orders_for

    with open_record(desk) as stash:
        people = (person,) if person else ()
        order, *_ = orders_for(stash, (garment,), people, dict(map(parse_option, choices)))
        farther = Farther(grow=grow, against=against, cut=cut, seconds=seconds)
        answer = ask_far(stash, order, farther)
    say(answer.to_json(), "\n".join(map(told, answer.told())), as_json=as_json)
