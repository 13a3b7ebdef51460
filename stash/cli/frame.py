"""What every command shares: the data folder, ``--json``, and errors as one sentence."""

from __future__ import annotations

import importlib
import json
import os
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import click
from platformdirs import user_data_path

from stash.errors import StashError
from stash.fact import Fact
from stash.sentences import Reader
from stash.sentences import say as sentence
from stash.units import System


@dataclass(frozen=True)
class Desk:
    """Where a command works: the data folder chosen by --data or LENGTHWISE_DATA."""

    data: Path

    @cached_property
    def reader(self) -> Reader:
        """Whom the answers are for: the units of the settings; metric before there are any."""
        from stash.workroom.settings import reader_of

        return reader_of(self.data)


pass_desk = click.make_pass_decorator(Desk)
json_option = click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")


def default_data() -> Path:
    """LENGTHWISE_DATA, else the platform's folder for a user's data."""
    chosen = os.environ.get("LENGTHWISE_DATA")
    return Path(chosen) if chosen else user_data_path("lengthwise", appauthor=False)


def reader() -> Reader:
    """Whom the command that runs now answers."""
    ctx = click.get_current_context(silent=True)
    desk = ctx.find_object(Desk) if ctx else None
    return desk.reader if desk else Reader(System.METRIC)


def told(what: Fact | StashError) -> str:
    """The sentence of a fact or an error, for whom this command answers."""
    return sentence(what.fact if isinstance(what, StashError) else what, reader())


def say(value: Mapping[str, Any], text: str, *, as_json: bool) -> None:
    """Print the answer: ``value`` for a program, ``text`` for a person."""
    click.echo(json.dumps(value, ensure_ascii=False, indent=1) if as_json else text)


class Commands(click.Group):
    """A group whose commands are imported only when they are called for.

    ``table`` maps a command's name to the module that holds its ``command`` and to its line in
    the list of commands, so that the list is shown without importing any of them.
    """

    def __init__(self, *args: Any, table: Mapping[str, tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.table = table
        self._as_json = False

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command, by name."""
        return sorted(self.table)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """Import the module of one command."""
        if name not in self.table:
            return None
        command: click.Command = importlib.import_module(self.table[name][0]).command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, as the table has it."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, self.table[name][1]) for name in self.list_commands(ctx)])

    def main(self, args: Sequence[str] | None = None, *rest: Any, **kwargs: Any) -> Any:
        """Run; remember whether a program asks, for whom an error is JSON as well."""
        self._as_json = "--json" in (sys.argv[1:] if args is None else args)
        return super().main(args, *rest, **kwargs)

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command, turning a StashError into its sentence and exit status 1."""
        try:
            return super().invoke(ctx)
        except StashError as error:
            said = told(error)
            if self._as_json:
                fact = {"error": said, "fact": error.fact.to_json(),
                        "field": getattr(error, "field", None)}
                click.echo(json.dumps(fact, ensure_ascii=False, indent=1))
            click.echo(said, err=True)
            ctx.exit(1)
