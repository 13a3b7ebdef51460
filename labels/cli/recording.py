"""Recording a use from the terminal, right after a label was seen by the camera."""

from __future__ import annotations

import uuid

import click

from stash.cli.frame import Desk
from stash.cli.record import bin_line, cut_line, open_record
from stash.errors import InvalidInput, StashError
from stash.store import Stash
from stash.units import parse_length


def record_use(desk: Desk, code: str) -> None:
    """Ask how much of this cut or bin was used and record it; Enter records nothing.

    What cannot be recorded is said in a sentence, and the watching goes on.
    """
    with open_record(desk) as stash:
        try:
            _ask(stash, code)
        except StashError as refused:
            click.echo(str(refused))


def _ask(stash: Stash, code: str) -> None:
    what, token = stash.labels.state(code), uuid.uuid4().hex
    if what == "cut":
        click.echo(cut_line(stash.cuts.card(code)))
        if typed := _typed("Cut off how much"):
            stash.cuts.cut_off(code, parse_length(typed, unit="cm"), token)
            click.echo(cut_line(stash.cuts.card(code)))
    elif what == "bin":
        click.echo(bin_line(stash.bins.card(code)))
        if typed := _typed("Took how much"):
            counted = stash.bins.get(code).notion.kind.counted
            amount = _count(typed) if counted else parse_length(typed, unit="cm")
            stash.bins.take(code, amount, token)
            click.echo(bin_line(stash.bins.card(code)))
    else:
        click.echo(f"{code} is {'a place' if what == 'place' else 'not on anything yet'}.")


def _typed(question: str) -> str:
    return click.prompt(f"{question} (Enter for nothing)", default="", show_default=False).strip()


def _count(typed: str) -> float:
    if not typed.isdecimal() or int(typed) == 0:
        raise InvalidInput(f"“{typed[:40]}” is not a number of things: write for example 5.")
    return float(typed)
