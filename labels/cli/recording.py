"""What a label seen by the camera is on, and recording a use of it from the terminal."""

from __future__ import annotations

import uuid

import click

from stash.cli.frame import Desk
from stash.cli.record import bin_line, cut_line, open_record
from stash.errors import StashError
from stash.model.amounts import read_amount
from stash.quantity import Quantity, read_length
from stash.store import Stash
from stash.store.folder import DataFolder


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
            stash.cuts.cut_off(code, read_length(typed, Quantity.CUT_LENGTH), token)
            click.echo(cut_line(stash.cuts.card(code)))
    elif what == "bin" and (typed := _typed("Took how much")):
        amount = read_amount(stash.bins.get(code).notion.kind, typed)
        stash.bins.take(code, amount, token)
        click.echo(bin_line(stash.bins.card(code)))


def _typed(question: str) -> str:
    return click.prompt(f"{question} (Enter for nothing)", default="", show_default=False).strip()
