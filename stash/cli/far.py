"""``lengthwise far``: how long, how wide, how full, how many from what is here."""

from __future__ import annotations

from typing import Any

import click

from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.record import open_record
from stash.fact import Fact, Term, fact
from stash.sentences import Reader
from stash.sentences import say as said
from stash.workroom.questions.farthest import Farther, FartherAnswer, ask_far
from stash.workroom.questions.orders import orders_for
from stash.workroom.settings import units


@click.command()
@click.argument("garment", metavar="GARMENT[@NAME]")
@click.option("--for", "person", metavar="NAME", help="For whom it is made.")
@click.option("--grow", required=True, metavar="OPTION",
              help="What is to grow: an option that is a length, or copies.")
@click.option("--against", metavar="OPTION", help="Draw it against a second option.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="What else is chosen; may be repeated.")
@click.option("--cut", metavar="CODE", help="Ask about one cut only.")
@click.option("--seconds", type=click.FloatRange(0.1, 600), default=1.0, show_default=True,
              help="How long each cut is halved; twice as long it is tried a little farther.")
@json_option
@pass_desk
def command(
    desk: Desk, garment: str, person: str | None, grow: str, against: str | None,
    choices: tuple[str, ...], cut: str | None, seconds: float, as_json: bool,
) -> None:
    """Say how far an option of GARMENT goes on each suitable cut, with its lay."""
    with open_record(desk) as stash:
        people = (person,) if person else ()
        order, *_ = orders_for(stash, (garment,), people, dict(map(parse_option, choices)))
        farther = Farther(grow=grow, against=against, cut=cut, seconds=seconds)
        answer = ask_far(stash, order, farther)
        reader = Reader(units(stash))
    lines = [said(line, reader) for line in told(answer)]
    say(answer.to_json(), "\n".join(lines), as_json=as_json)


def told(answer: FartherAnswer) -> list[Fact]:
    """One fact a cut, and one a point of the curve."""
    if not answer.reaches:
        return [fact("far_nothing")]
    lines = [
        _reach(one, f"{one.cut.code}  {one.cut.cloth.name}", answer.grow)
        for one in answer.reaches
    ]
    for point in answer.curve:
        what = fact("far_against", option=Term(answer.against), against_mm=point.against)
        lines.append(
            _reach(point.reach, what, answer.grow) if point.reach
            else fact("far_point_nothing", what=what)
        )
    return lines


def _reach(one: Any, what: str | Fact, grow: str) -> Fact:
    if grow == "copies":
        return fact("far_found_count", what=what, count=round(one.value))
    kinds = {"proof": "far_proved", "option": "far_option_ends", "search": "far_found"}
    if one.ended.value == "search" and one.proved_at_most is not None:
        return fact("far_between", what=what, value_mm=one.value, most_mm=one.proved_at_most)
    most = one.proved_at_most
    return fact(kinds[one.ended.value], what=what, value_mm=one.value, most_mm=most)
