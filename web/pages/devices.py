"""Devices: paired by a code on this screen, named, revocable, with their last use."""

from __future__ import annotations

from flask import Blueprint, current_app, make_response, redirect, render_template, request, url_for
from markupsafe import Markup

from labels.local_name import lan_address
from labels.qr import symbol
from stash.errors import InvalidInput, StashError
from stash.model.role import DeviceRole
from stash.workroom import devices
from stash.workroom.devices import Offer
from web import forms
from web.devices.who_asks import COOKIE, guest
from web.error_pages import status_of
from web.formatting import tell
from web.request_stash import stash
from web.texts import _

pages = Blueprint("devices", __name__, url_prefix="/devices")

ROLES = {DeviceRole.LOOK: "look at the stash", DeviceRole.RECORD: "look and record",
         DeviceRole.ALL: "everything, also measurements and settings"}
YEARS_S = 2 * 365 * 86_400


@pages.get("/")
def show():
    """Every device, and a form to pair another."""
    return _page()


@pages.post("/")
def offer():
    """Show a code that pairs one device, once."""
    try:
        role = forms.text("role")
        if role not in set(DeviceRole):
            raise InvalidInput("role_from_list", field="role")
        name = forms.needed("name", _("The name of the device"))
        made = devices.offer(stash(), name, DeviceRole(role))
    except StashError as error:
        return _page(error=error)
    return _page(made)


@pages.post("/revoke")
def revoke():
    """Let a device in no more."""
    gone = devices.revoke(stash(), forms.text("name"))
    tell(_("%(name)s is let in no more.", name=gone.name))
    return redirect(url_for("devices.show"), 303)


@pages.get("/pair")
def pair():
    """What the code opens on the device: a button, so that a mere look uses nothing up."""
    return render_template("devices/pair.html", secret=request.args.get("s", "")[:100],
                           secure=request.is_secure)


@pages.post("/pair")
def accept():
    """The device is known from now on by a key that only it has."""
    device, key = devices.pair(stash(), request.form.get("secret", "")[:100])
    answer = make_response(redirect(url_for("home.show"), 303))
    answer.set_cookie(COOKIE, key, max_age=YEARS_S, httponly=True, samesite="Lax",
                      secure=request.is_secure)
    tell(_("This device is now %(name)s.", name=device.name))
    return answer


def _page(made: Offer | None = None, error: StashError | None = None):
    address = made and pairing_address(made)
    return render_template(
        "devices/show.html", devices=devices.everyone(stash()), made=made, address=address,
        drawing=address and drawn(address), roles=[(r.value, _(t)) for r, t in ROLES.items()],
        error=error, typed=request.form if error else None, here=guest().here,
    ), status_of(error) if error else 200


def pairing_address(made: Offer) -> str:
    """Where the device goes: the secure address of this computer on the network."""
    host = lan_address() or "localhost"
    secure = current_app.config.get("SECURE_PORT")
    port = request.host.rpartition(":")[2] if ":" in request.host else "80"
    base = f"https://{host}:{secure}" if secure else f"http://{host}:{port}"
    return f"{base}/devices/pair?s={made.secret}"


def drawn(text: str) -> Markup:
    """A QR code as an SVG drawing, with its quiet zone."""
    code = symbol(text)
    dark = "".join(
        f"M{x + 4} {y + 4}h1v1h-1z" for y, row in enumerate(code.modules)
        for x, cell in enumerate(row) if cell)
    return Markup(
        '<svg class="pairing" viewBox="0 0 {0} {0}" width="240" height="240" role="img" '
        'aria-label="QR"><rect width="{0}" height="{0}" fill="#fff"/>'
        '<path d="{1}" fill="#000"/></svg>').format(code.side, dark)
