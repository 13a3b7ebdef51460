"""Whether a request comes from this computer itself, or from which paired device."""

from __future__ import annotations

import ipaddress
from dataclasses import dataclass

from flask import g, request

from stash.model.role import DeviceRole
from stash.workroom import devices
from stash.workroom.devices import Device

COOKIE = "lengthwise-device"
FORWARDED = ("Forwarded", "X-Forwarded-For", "X-Real-Ip", "Via")


@dataclass(frozen=True)
class Guest:
    """Who asks: ``here`` is this computer; ``device`` a paired one; neither, a stranger."""

    here: bool
    device: Device | None = None

    @property
    def role(self) -> DeviceRole | None:
        """What it may do; None for a stranger."""
        return DeviceRole.ALL if self.here else self.device.role if self.device else None


def is_here() -> bool:
    """True for a browser on this computer, asking it by a local name and through no proxy."""
    try:
        address = ipaddress.ip_address((request.remote_addr or "").partition("%")[0])
    except ValueError:
        return False
    mapped = getattr(address, "ipv4_mapped", None)
    near = (mapped or address).is_loopback
    return near and not any(name in request.headers for name in FORWARDED)


def guest() -> Guest:
    """Who asks, looked up once a request."""
    if "guest" not in g:
        g.guest = Guest(here=True) if is_here() else Guest(here=False, device=_paired())
    known: Guest = g.guest
    return known


def _paired() -> Device | None:
    from web.request_stash import stash

    key = request.cookies.get(COOKIE, "")
    return devices.known(stash(), key) if 20 <= len(key) <= 100 else None
