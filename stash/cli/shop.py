"""``lengthwise shop``: what must be bought, and a card to take along."""

from __future__ import annotations

from typing import Any

import click

from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say
from stash.cli.instead import only_one
from stash.cli.output import output_file, replace_option
from stash.workroom.searching import SECONDS


@click.command()
@click.argument("garments", nargs=-1, metavar="[GARMENT[@NAME]]...")
@click.option("--for", "people", multiple=True, metavar="NAME", help="For whom.")
@click.option("--plan", "name", help="Shop for a plan; without it and garments, for all plans.")
@click.option("--widths", metavar="LIST", help="Widths the shop sells: 90cm,115cm,150cm.")
@click.option("--increment", metavar="LENGTH", help="The shop cuts by this: 10 cm or 1/8 yd.")
@click.option("--price", type=FloatRange(0, 1_000_000), help="Price of a metre.")
@click.option("--currency", default="", help="Written beside the price.")
@click.option("--shrink", default="5x3", show_default=True, metavar="ALONGxACROSS",
              help="Percent lost in the first wash.")
@click.option("--one-way", is_flag=True, help="The cloth hoped for is one-way.")
@click.option("--repeat", metavar="LENGTHxWIDTH", help="Its repeat, for example 64x32cm.")
@click.option("--all-cloth", is_flag=True, help="Buy all cloth new, whatever the stash has.")
@replace_option
@click.option("--card", type=output_file,
              metavar="FILE.html|FILE.pdf", help="Save a card to take along.")
@click.option("--seconds", type=FloatRange(0.1, 3600), default=SECONDS["shop"], show_default=True,
              help="How long to search.")
@json_option
@pass_desk
def command(desk: Desk, /, as_json: bool, **typed: Any) -> None:
    """Say what to buy: cloth at each width sold, and the notions that are missing."""
    only_one(GARMENT=typed["garments"], plan=typed["name"])
    only_one(**{"for": typed["people"]}, plan=typed["name"])
    from stash.cli.shop_asked import shopped  # the lay is loaded with the first question

    value, text = shopped(desk, typed)
    say(value, text, as_json=as_json)
