"""What every command shares: the data folder, ``--json``, and errors as one sentence."""

from __future__ import annotations

import importlib
import json
import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import click
from platformdirs import user_data_path

from stash.errors import StashError
from stash.sentences import Reader, says
from stash.units import System


@dataclass(frozen=True)
class Desk:
    """Where a command works: the data folder chosen by --data or LENGTHWISE_DATA."""

    data: Path


pass_desk = click.make_pass_decorator(Desk)
json_option = click.option("--json", "as_json", is_flag=True, help="Answer as JSON.")


def default_data() -> Path:
    """LENGTHWISE_DATA, else the platform's folder for a user's data."""
    chosen = os.environ.get("LENGTHWISE_DATA")
    return Path(chosen) if chosen else user_data_path("lengthwise", appauthor=False)


def say(value: Mapping, text: str, *, as_json: bool) -> None:
    """Print the answer: ``value`` for a program, ``text`` for a person."""
    click.echo(json.dumps(value, ensure_ascii=False, indent=1) if as_json else text)


class Commands(click.Group):
    """A group whose commands are imported only when they are called for.

    ``modules`` maps a command's name to the module that holds its ``command``.
    """

    def __init__(self, *args, modules: Mapping[str, str], **kwargs):
        super().__init__(*args, **kwargs)
        self.modules = modules

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Every command, by name."""
        return sorted(self.modules)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """Import the module of one command."""
        if name not in self.modules:
            return None
        return importlib.import_module(self.modules[name]).command

    def main(self, *args, **kwargs):
        """Run, turning a StashError into its sentence and exit status 1."""
        try:
            return super().main(*args, **kwargs)
        except StashError as error:
            click.echo(says(error, Reader(System.METRIC)), err=True)
            sys.exit(1)
