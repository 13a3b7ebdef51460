"""``lengthwise keep``: the earlier words for ``lengthwise record``; they go with version 0.3."""

from __future__ import annotations

import click

from stash.cli import safekeeping

NOW = {"copy": "backup", "bring": "restore", "table": "table", "copies": "copies", "check": "check"}


@click.group()
def command() -> None:
    """Earlier words for "record": copy is backup now, bring is restore."""


for _earlier, _name in NOW.items():
    command.add_command(safekeeping.command.commands[_name], _earlier)
