"""``lengthwise device``: who may use the pages over the network."""

from __future__ import annotations

import io

import click
import qrcode

from labels.local_name import lan_address
from stash.cli.frame import Desk, json_option, pass_desk, reader, say
from stash.cli.open_record import open_record
from stash.cli.words import _
from stash.sentences.manner import minute
from stash.workroom import devices
from stash.workroom.devices import Device, DeviceRole


@click.group()
def command() -> None:
    """Pair phones with the stash, list them, revoke them."""


@command.command("list")
@json_option
@pass_desk
def list_(desk: Desk, as_json: bool) -> None:
    """List the paired devices, what each may do, and when it was last used."""
    with open_record(desk) as stash:
        found = devices.everyone(stash)
    lines = [_(
        "{name}: may {role}; last used {last_used}",
        name=d.name, role=_(d.role.value),
        last_used=minute(d.last_used, reader()) if d.last_used else _("never"),
    ) for d in found]
    say({"ok": True, "devices": [_json(d) for d in found]},
        "\n".join(lines or [_("No device is paired.")]), as_json=as_json)


@command.command()
@click.argument("name")
@click.option("--role", type=click.Choice([r.value for r in DeviceRole]),
              default=DeviceRole.RECORD.value, show_default=True,
              help="What it may do: look, record or all.")
@click.option("--port", default=5001, show_default=True, type=click.IntRange(1, 65535),
              help="Where the app answers securely.")
@json_option
@pass_desk
def pair(desk: Desk, name: str, role: str, port: int, as_json: bool) -> None:
    """Offer to pair the device NAME, once and within ten minutes; shows a code to scan."""
    with open_record(desk) as stash:
        made = devices.offer(stash, name, DeviceRole(role))
    url = f"https://{lan_address() or 'localhost'}:{port}/devices/pair?s={made.secret}"
    value = {"ok": True, "name": made.name, "role": made.role.value, "url": url,
             "until": made.until}
    say(value, _(
        "{drawn}\nScan this with {name}, or open {url}",
        drawn=_drawn(url), name=made.name, url=url,
    ), as_json=as_json)


@command.command()
@click.argument("name")
@json_option
@pass_desk
def revoke(desk: Desk, name: str, as_json: bool) -> None:
    """Let the device NAME in no more."""
    with open_record(desk) as stash:
        gone = devices.revoke(stash, name)
    say({"ok": True, "device": _json(gone)}, _(
        "{name} is let in no more.",
        name=gone.name,
    ), as_json=as_json)


def _json(device: Device) -> dict[str, object]:
    return {"name": device.name, "role": device.role.value, "paired_at": device.paired_at,
            "last_used": device.last_used}


def _drawn(text: str) -> str:
    code = qrcode.QRCode(border=2)
    code.add_data(text)
    out = io.StringIO()
    code.print_ascii(out=out, invert=True)
    return out.getvalue()
