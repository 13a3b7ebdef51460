"""``lengthwise find``: cuts and bins by words, as the page of the stash finds them."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.open_record import bin_json, bin_line, cut_json, cut_line, open_record
from stash.cli.words import _
from stash.workroom import finding


@click.command("find")
@click.argument("words", nargs=-1, required=True)
@json_option
@pass_desk
def command(desk: Desk, words: tuple[str, ...], as_json: bool) -> None:
    """Find cuts and bins that hold all these WORDS, fibres and colours in any language."""
    typed = " ".join(words)
    with open_record(desk) as stash:
        cuts, bins = finding.cut_cards(stash, typed), finding.bin_cards(stash, typed)
    value = {"cuts": [cut_json(card) for card in cuts], "bins": [bin_json(card) for card in bins]}
    text = "\n".join([*map(cut_line, cuts), *map(bin_line, bins)])
    say(value, text or _("Nothing on record answers to that."), as_json=as_json)
