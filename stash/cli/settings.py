"""``lengthwise settings``: what is decided once; the page of settings knows the same."""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.open_record import event_json, open_record
from stash.errors import InvalidInput
from stash.workroom import settings
from stash.workroom.settings import Preferences


@click.group()
def command() -> None:
    """Units, cutting margins, the widths the shop sells, the address on labels."""


@command.command()
@json_option
@pass_desk
def show(desk: Desk, as_json: bool) -> None:
    """Show every setting."""
    with open_record(desk) as stash:
        known = settings.preferences(stash)
    say(known.to_json(), _text(known), as_json=as_json)


@command.command("set")
@click.argument("pairs", nargs=-1, required=True, metavar="NAME=VALUE...")
@json_option
@pass_desk
def set_(desk: Desk, pairs: tuple[str, ...], as_json: bool) -> None:
    """Set some of them, for example units=inches edge_mm=5mm widths_mm=114,150."""
    typed = dict(map(_pair, pairs))
    with open_record(desk) as stash:
        known, event = settings.change(stash, typed)
    value = {**known.to_json(), "event": event_json(event) if event else None}
    say(value, _text(known), as_json=as_json)


def _pair(text: str) -> tuple[str, str]:
    name, equals, value = text.partition("=")
    if not equals or not name.strip():
        raise InvalidInput("pair_wanted", typed=text.strip()[:40], field="name")
    return name.strip().replace("-", "_"), value.strip()


def _text(known: Preferences) -> str:
    shown = {
        name: _written(name, value) for name, value in known.to_json().items()
    }
    return "\n".join(f"{name} = {value}" for name, value in shown.items())


def _written(name: str, value: object) -> str:
    if isinstance(value, list):
        if name == "printer_shift_mm":
            return ",".join(f"{side:g}" for side in value)
        if not name.endswith("_mm"):
            return ", ".join(map(str, value))
        return ", ".join(written.width(width) for width in value)
    if isinstance(value, float) and name.endswith("_mm"):
        return written.length(value) if value else "0"
    return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)
