"""``lengthwise fit``: which cuts of the stash make these garments."""

from __future__ import annotations

from typing import Any

import click

from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say
from stash.cli.output import output_file, replace_option
from stash.workroom.searching import AIMS, SECONDS


@click.command()
@click.argument("garments", nargs=-1, required=True, metavar="GARMENT[@NAME]...")
@click.option("--for", "people", multiple=True, metavar="NAME",
              help="Every garment is made for every NAME; GARMENT@NAME names one.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="For example length=45cm; may be repeated.")
@click.option("--cut", "only_cut", metavar="CODE", help="Ask about one cut only.")
@click.option("--give-up", "giving_up", multiple=True, metavar="PLAN",
              help="As if this plan held nothing.")
@click.option("--spread", type=click.Choice(["open", "lengthwise", "crosswise", "any"]),
              default="open", show_default=True, help="How the cloth lies on the table.")
@click.option("--prefer", multiple=True,
              type=click.Choice(AIMS), help="What counts double.")
@click.option("--presume-shrink", type=click.Choice(["yes", "no"]), default="yes",
              show_default=True, help="Presume a prudent shrinkage where nobody measured one.")
@click.option("--unwashed", is_flag=True,
              help="Lay unwashed cloth as it lies: for what is never washed.")
@click.option("--seconds", type=FloatRange(0.1, 3600), default=SECONDS["fit"], show_default=True,
              help="How long to search.")
@replace_option
@click.option("--svg", type=output_file, help="Save the best lay as a drawing.")
@json_option
@pass_desk
def command(desk: Desk, /, as_json: bool, **typed: Any) -> None:
    """Find the cuts that make these garments, best first, each with its lay."""
    from stash.cli.fit_asked import fitted  # the lay is loaded with the first question

    value, text = fitted(desk, typed, with_spreads=as_json)
    say(value, text, as_json=as_json)
