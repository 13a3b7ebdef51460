"""At a terminal, a line says what a command waits for."""

from __future__ import annotations

import sys
import warnings

import click

from stash.cli.frame import told
from stash.fact import Fact
from stash.waited_for import tell_of_waits


def say_what_is_waited_for() -> None:
    """On the terminal itself, never in what a program reads."""
    if sys.stderr.isatty():
        tell_of_waits(_say)
        # a lay that fails its check is told of in the answer, without a path
        warnings.filterwarnings("ignore", module=r"stash\.lay\.")


def _say(what: Fact) -> None:
    click.echo(told(what), err=True)
