"""``lengthwise keep``: the earlier words for ``lengthwise record``; they go with version 0.3."""

from __future__ import annotations

import click

from stash.cli import safekeeping

NOW = {"copy": "backup", "bring": "restore", "table": "table", "copies": "copies", "check": "check"}


@click.group()
@click.pass_context
def command(ctx: click.Context) -> None:
    """Earlier words for "record": copy, bring, table, copies, check."""
    asked = ctx.invoked_subcommand or ""
    click.echo(f"“keep {asked}” is now “record {NOW.get(asked, asked)}”.", err=True)


for _earlier, _name in NOW.items():
    command.add_command(safekeeping.command.commands[_name], _earlier)
