"""``lengthwise like``: do I already own one like this?"""

from __future__ import annotations

from typing import Any

import click

from stash.cli.frame import Desk, json_option, pass_desk, say


@click.command()
@click.option("--colour", help="The colour looked for, by its name or like #7a1f2b.")
@click.option("--words", default="", help="Words of its name, fibre or notes, all of them.")
@click.option("--mass", metavar="WEIGHT", help="Its weight, give or take a quarter.")
@click.option("--most", type=click.IntRange(1, 1000), default=20, show_default=True,
              help="How many to show.")
@json_option
@pass_desk
def command(desk: Desk, /, as_json: bool, **typed: Any) -> None:
    """Find the cuts most like what is in your hand."""
    from stash.cli.like_asked import alike  # what compares is loaded with the first question

    value, text = alike(desk, typed)
    say(value, text, as_json=as_json)
