"""``lengthwise pattern add``: the pieces of a paper pattern, typed in."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, json_option, pass_desk
from stash.cli.pattern_said import keep_reading
from stash.workroom import patterns


@click.command("add")
@click.argument("name")
@click.option(
    "--piece", "lines", multiple=True, required=True, metavar="LINE",
    help="For example “front, 104cm x 30cm, cut 2, mirrored”, or several widths from the top "
    "down: “back, 70cm x 20cm-28cm, on fold”.",
)
@json_option
@pass_desk
def command(desk: Desk, name: str, lines: tuple[str, ...], as_json: bool) -> None:
    """Type in the pieces of a paper pattern as rectangles or by their widths."""
    pieces = tuple(map(patterns.parse_typed, lines))
    keep_reading(desk, name, patterns.typed(pieces), "typed", as_json)
