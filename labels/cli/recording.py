"""What a label seen by the camera is on, and recording a use of it from the terminal."""

from __future__ import annotations

import uuid

import click

from stash.cli.frame import Desk
from stash.cli.record import bin_line, cut_line, open_record
from stash.errors import InvalidInput, StashError
from stash.store import Stash
from stash.store.folder import DataFolder
from stash.units import parse_length


def described(desk: Desk, code: str) -> str:
    """A cut or bin in one line; the code alone where there is no record of it."""
    if not DataFolder(desk.data).database.exists():
        return code
    with open_record(desk) as stash:
        what = stash.labels.state(code)
        if what == "cut":
            return cut_line(stash.cuts.card(code))
        if what == "bin":
            return bin_line(stash.bins.card(code))
        return f"{code}  {stash.places.get(code).name}" if what == "place" else f"{code}  ({what})"


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
        if typed := _typed("Cut off how much"):
            stash.cuts.cut_off(code, parse_length(typed, unit="cm"), token)
            click.echo(cut_line(stash.cuts.card(code)))
    elif what == "bin" and (typed := _typed("Took how much")):
        counted = stash.bins.get(code).notion.kind.counted
        amount = _count(typed) if counted else parse_length(typed, unit="cm")
        stash.bins.take(code, amount, token)
        click.echo(bin_line(stash.bins.card(code)))


def _typed(question: str) -> str:
    return click.prompt(f"{question} (Enter for nothing)", default="", show_default=False).strip()


def _count(typed: str) -> float:
    if not typed.isdecimal() or int(typed) == 0:
        raise InvalidInput(f"“{typed[:40]}” is not a number of things: write for example 5.")
    return float(typed)
