"""``lengthwise undo``: take back what was recorded."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.instead import only_one
from stash.cli.open_record import event_json, history_lines, open_record, whose
from stash.cli.words import _
from stash.workroom import history


@click.command()
@click.argument("event", type=int, required=False)
@click.option("--list", "listing", is_flag=True, help="Show the newest entries of the ledger.")
@json_option
@pass_desk
def command(desk: Desk, event: int | None, listing: bool, as_json: bool) -> None:
    """Take back an entry of the ledger: the newest, or the EVENT with this number.

    Taking back an undo records the entry again. Nothing is ever deleted.
    """
    only_one(EVENT=event, list=listing)
    with open_record(desk) as stash:
        if listing:
            events = history.latest(stash, 20)
            each = zip(history_lines(stash, events), events, strict=True)
            text = "\n".join(f"{line}  {whose(stash, event)}" for line, event in each)
            value = {"events": [event_json(e) for e in events]}
            say(value, text or _("The ledger is empty."), as_json=as_json)
            return
        undone = (
            history.undo_newest(stash) if event is None else history.undo(stash, event)
        )
        on = whose(stash, undone)
    text = _("Entry {undoes} ({code}) was taken back.", undoes=undone.undoes, code=on)
    say(event_json(undone), text, as_json=as_json)
