"""Before every request: may whoever asks do this, over this connection, this often?"""

from __future__ import annotations

from flask import Flask, current_app, redirect, request

from stash.errors import StashError
from stash.model.role import DeviceRole
from web.devices.how_often import Bucket
from web.devices.who_asks import guest, is_here

SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
OPEN_TO_ALL = frozenset({
    "static", "devices.pair", "devices.accept", "settings.secure", "settings.certificate",
    "guide.index", "guide.show", "guide.show_picture", "pocket.worker",
})
"""What a stranger needs in order to become a device."""
PRIVATE = frozenset({"people", "her_fit", "measured", "settings", "safekeeping", "devices"})
"""Pages with body measurements, settings, and the whole record in one file."""
ONLY_HERE = frozenset({
    "devices.offer", "devices.revoke", "safekeeping.mend", "safekeeping.check",
})
READS_ONLY = frozenset({"pocket.tag"})
"""Forms that send a photograph to be read, and record nothing."""
STATUS = {"too_many_requests": 429}


class Refused(StashError):
    """Whoever asks may not do this."""


def install(app: Flask) -> None:
    """Put the door before every request."""
    app.extensions["requests"] = Bucket(most=300, a_second=40)
    app.extensions["failures"] = Bucket(most=10, a_second=1 / 6)
    app.before_request(let_in)


def let_in():
    """None lets the request through; Refused says why it may not pass."""
    if is_here():
        return None
    address = request.remote_addr or ""
    if not current_app.extensions["requests"].take(address):
        raise Refused("too_many_requests")
    if request.endpoint in OPEN_TO_ALL:
        return _count_pairing(address)
    role = guest().role
    if role is None:
        return _stranger(address)
    if not role.allows(needed(request.endpoint, request.method)):
        raise Refused("role_too_small")
    if request.endpoint in ONLY_HERE:
        raise Refused("only_on_the_computer")
    if request.method not in SAFE and not request.is_secure:
        raise Refused("writing_needs_https")
    return None


def needed(endpoint: str | None, method: str) -> DeviceRole:
    """The role that a page asks for."""
    room = (endpoint or "").partition(".")[0]
    if room in PRIVATE:
        return DeviceRole.ALL
    return DeviceRole.LOOK if method in SAFE or endpoint in READS_ONLY else DeviceRole.RECORD


def _count_pairing(address: str) -> None:
    if request.method not in SAFE and not current_app.extensions["failures"].take(address):
        raise Refused("too_many_requests")


def _stranger(address: str):
    """A device that may be known over the secure connection is sent there; others are refused."""
    secure = current_app.config.get("SECURE_PORT")
    if request.method in SAFE and not request.is_secure and secure:
        name = request.host.rpartition(":")[0] if ":" in request.host else request.host
        path = request.full_path.rstrip("?").lstrip("/")
        return redirect(f"https://{name}:{secure}/{path}", 307)
    if request.cookies and not current_app.extensions["failures"].take(address):
        raise Refused("too_many_requests")
    raise Refused("device_unknown")
