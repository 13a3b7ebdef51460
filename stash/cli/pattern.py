"""``lengthwise pattern``: patterns of her own, from files, photographs and paper."""

from __future__ import annotations

import click

from stash.cli.frame import CalledFor

COMMANDS = ("add", "alter", "import", "list", "set", "show", "table", "trace")


@click.command(cls=CalledFor, modules={name: f"stash.cli.pattern_{name}" for name in COMMANDS})
def command() -> None:
    """Keep patterns of your own: import, trace from a photograph, or type them in."""
