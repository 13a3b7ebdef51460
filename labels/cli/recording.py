"""What a label seen by the camera is on, and recording a use of it from the terminal."""

from __future__ import annotations

import uuid

import click

from stash.cli.frame import Desk
from stash.cli.open_record import bin_line, cut_line, open_record
from stash.cli.words import _
from stash.errors import StashError
from stash.model.amounts import read_amount
from stash.quantity import Quantity, read_length
from stash.workroom import bins, cuts
from stash.workroom.labels import labelled
from stash.workroom.opening import Stash, has_stash


def described(desk: Desk, code: str) -> str:
    """A cut or bin in one line; the code alone where there is no record of it."""
    if not has_stash(desk.data):
        return code
    with open_record(desk) as stash:
        on = labelled(stash, code)
    if on.cut:
        return cut_line(on.cut)
    if on.bin:
        return bin_line(on.bin)
    return f"{code}  {on.place.name if on.place else f'({on.what})'}"


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
    on, token = labelled(stash, code), uuid.uuid4().hex
    if on.cut:
        if typed := _typed(_("Cut off how much")):
            done = cuts.cut_off(stash, code, read_length(typed, Quantity.CUT_LENGTH), token)
            click.echo(cut_line(done.now))
    elif on.bin and (typed := _typed(_("Took how much"))):
        amount = read_amount(on.bin.bin.notion.kind, typed)
        click.echo(bin_line(bins.take(stash, code, amount, token).now))


def _typed(question: str) -> str:
    return click.prompt(_(
        "{question} (Enter for nothing)",
        question=question,
    ), default="", show_default=False).strip()
