"""``lengthwise need``: how much cloth of a given width these garments take."""

from __future__ import annotations

from typing import Any

import click

from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say
from stash.workroom.searching import SECONDS


@click.command()
@click.argument("garments", nargs=-1, required=True, metavar="GARMENT...")
@click.option("--measure", "measures", multiple=True, metavar="TERM=LENGTH",
              help="For example hip=100cm; may be repeated.")
@click.option("--for", "people", multiple=True, metavar="NAME",
              help="Use the measurements of a person on record.")
@click.option("--body", type=click.Choice(["women", "men", "children"]),
              help="The body table for what was not measured.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="For example length=45cm; may be repeated.")
@click.option("--width", required=True, metavar="LENGTH", help="Usable width, for example 114cm.")
@click.option("--one-way", is_flag=True, help="Every piece points the same way.")
@click.option("--repeat", metavar="LENGTHxWIDTH", help="Repeat of the print, for example 64x32cm.")
@click.option("--spread", type=click.Choice(["open", "lengthwise", "crosswise", "any"]),
              default="open", show_default=True, help="How the cloth lies on the table.")
@click.option("--seconds", type=FloatRange(0.1, 3600), default=SECONDS["need"], show_default=True,
              help="How long to search.")
@json_option
@pass_desk
def command(desk: Desk, /, as_json: bool, **typed: Any) -> None:
    """Say the shortest length of cloth found for these garments, with its lay."""
    from stash.cli.need_asked import needed  # the lay is loaded with the first question

    value, text = needed(desk, typed)
    say(value, text, as_json=as_json)
