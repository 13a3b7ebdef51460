"""What every command shares: the data folder, ``--json``, and errors as one sentence."""

from __future__ import annotations

import importlib
import json
import math
import os
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, NoReturn

import click
from platformdirs import user_data_path

from stash.cli.interrupts import heard_at_once
from stash.cli.streams import print_every_letter, takes_every_letter
from stash.cli.words import (
    _,
    in_the_terminals_language,
    paragraphs,
    speak_the_terminals_language,
    told_in,
)
from stash.errors import InvalidInput, StashError, SurerFigure
from stash.fact import Fact, fact
from stash.sentences import Reader
from stash.sentences import say as sentence
from stash.sentences.reader import spoken
from stash.sentences.translations import translated
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


STAYS = frozenset({"serve", "demo", "--camera"})


class FloatRange(click.FloatRange):
    """A number within bounds; "nan" and "inf", which no bound keeps out, are none."""

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """The number."""
        number = float(super().convert(value, param, ctx))
        if not math.isfinite(number):
            self.fail(_("“{value}” is not a number that can be used.", value=value), param, ctx)
        return number


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
    click.echo(_packed(value, indent=1) if as_json else printable(text))


def _packed(value: Mapping[str, Any], indent: int | None = None) -> str:
    ascii_only = not takes_every_letter()
    return printable(json.dumps(value, ensure_ascii=ascii_only, indent=indent))


def printable(text: str) -> str:
    """The text as it can be printed, also where a name on the disk is no text."""
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def _is_text(word: str) -> bool:
    """Whether a word is text, or names a file that is there, whatever its name is made of."""
    try:
        word.encode("utf-8")
    except UnicodeEncodeError:
        return os.path.lexists(word)
    return True


class CalledFor(click.Group):
    """A group whose commands are imported only when they are called for.

    ``modules`` maps a command's name to the module that holds its ``command``.
    """

    def __init__(self, *args: Any, modules: Mapping[str, str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.modules = modules

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command, by name."""
        return sorted(self.modules)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """Import the module of one command."""
        if name not in self.modules:
            return None
        command: click.Command = importlib.import_module(self.modules[name]).command
        return in_the_terminals_language(command)


class Commands(CalledFor):
    """Every command of the house.

    ``table`` maps a command's name to its module and to its line in the list of commands, so
    that the list is shown without importing any of them.
    """

    def __init__(self, *args: Any, table: Mapping[str, tuple[str, str]], **kwargs: Any) -> None:
        modules = {name: module for name, (module, _line) in table.items()}
        super().__init__(*args, modules=modules, **kwargs)
        self.table = table
        self._as_json = False

    def get_params(self, ctx: click.Context) -> list[click.Parameter]:
        """The options of them all, explained in the terminal's language."""
        return [told_in(spoken(), one) for one in super().get_params(ctx)]

    def format_help_text(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """What the program is for."""
        formatter.write_paragraph()
        with formatter.indentation():
            for part in paragraphs(self.help):
                formatter.write_text(translated(part, spoken()))

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands, as the table has it."""
        language = spoken()
        with formatter.section(translated("Commands", language)):
            formatter.write_dl([
                (name, translated(self.table[name][1], language))
                for name in self.list_commands(ctx)
            ])

    def main(self, args: Sequence[str] | None = None, *rest: Any, **kwargs: Any) -> Any:
        """Run; remember whether a program asks, for whom an error is JSON as well."""
        print_every_letter()
        speak_the_terminals_language()
        given = sys.argv[1:] if args is None else args
        self._as_json = "--json" in given
        if odd := next((word for word in given if not _is_text(word)), None):
            click.echo(told(InvalidInput("not_utf8", typed=printable(odd)[:60])), err=True)
            sys.exit(1)
        if STAYS.intersection(given):  # answers until it is stopped, and then tidies up
            return super().main(args, *rest, **kwargs)
        with heard_at_once():
            return super().main(args, *rest, **kwargs)

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command, turning a StashError into its sentence and exit status 1."""
        try:
            return super().invoke(ctx)
        except StashError as error:
            self._refuse(ctx, error)
        except (ValueError, TypeError, LookupError, AttributeError):
            from stash.workroom.safekeeping import trouble_behind  # only then is it wanted

            desk = ctx.find_object(Desk)
            if desk is None or (fault := trouble_behind(desk.data)) is None:
                raise
            self._refuse(ctx, fault)

    def _refuse(self, ctx: click.Context, error: StashError) -> NoReturn:
        said = told(error)
        if self._as_json:
            refused = {"error": said, "fact": error.fact.to_json(),
                       "field": getattr(error, "field", None)}
            click.echo(_packed(refused))
        click.echo(said, err=True)
        if isinstance(error, SurerFigure):
            click.echo(told(fact("replace_overrules")), err=True)
        ctx.exit(1)
