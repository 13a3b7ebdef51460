"""``lengthwise like``: do I already own one like this?"""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.frame import Desk, json_option, pass_desk, reader, say
from stash.cli.open_record import open_record
from stash.cli.words import _
from stash.sentences import Reader
from stash.sentences import say as said
from stash.units import parse_mass
from stash.workroom.questions.answer_json import like_json
from stash.workroom.questions.likeness import Likeness, Wish, ask_like


@click.command()
@click.option("--colour", metavar="#RRGGBB", help="The colour looked for, for example #7a1f2b.")
@click.option("--words", default="", help="Words of its name, fibre or notes, all of them.")
@click.option("--mass", metavar="WEIGHT", help="Its weight, give or take a quarter.")
@click.option("--most", type=click.IntRange(1, 1000), default=20, show_default=True,
              help="How many to show.")
@json_option
@pass_desk
def command(
    desk: Desk, colour: str | None, words: str, mass: str | None, most: int, as_json: bool
) -> None:
    """Find the cuts most like what is in your hand."""
    wish = Wish(colour=colour, words=words, mass_gsm=parse_mass(mass) if mass else None)
    with open_record(desk) as stash:
        found, whose = ask_like(stash, wish, most=most), reader()
    text = "\n".join(_line(like, whose) for like in found) or _("You own nothing like it.")
    say({"matches": [like_json(like, whose) for like in found]}, text, as_json=as_json)


def _line(like: Likeness, whose: Reader) -> str:
    cut, told = like.cut, said(like.nearness, whose)
    size = written.size(cut.length_mm, cut.width_mm)
    return f"{cut.code}  {cut.cloth.name}, {size}, {cut.place or _('no place yet')}: {told}"
