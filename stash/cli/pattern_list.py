"""``lengthwise pattern list``: the patterns on record, read without what draws or alters them."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.open_record import open_record
from stash.cli.words import _
from stash.workroom import pattern_list


@click.command("list")
@json_option
@pass_desk
def command(desk: Desk, as_json: bool) -> None:
    """List the patterns on record."""
    with open_record(desk) as stash:
        kept = pattern_list.everything(stash)
    value = [
        {"pattern": k.name, "version": k.version, "source": k.source,
         "pieces": [p.name for p in k.pattern.pieces]}
        for k in kept
    ]
    lines = [_(
        "{name}, version {version}, pieces: {number}",
        name=k.name, version=k.version, number=len(k.pattern.pieces),
    ) for k in kept]
    say({"patterns": value}, "\n".join(lines) or _("No patterns yet."), as_json=as_json)
