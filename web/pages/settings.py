"""What is decided once: the address on labels, units, cutting, and what the shop sells."""

from __future__ import annotations

from flask import Blueprint, current_app, redirect, render_template, request, url_for

from labels.address import default_address, lan_address
from stash.errors import StashError
from stash.units import System, format_length, format_width
from stash.workroom import settings
from web import forms
from web.errors import status_of
from web.opened import stash
from web.showing import tell
from web.texts import _

pages = Blueprint("settings", __name__, url_prefix="/settings")

TYPED = ("address", "units", "edge_mm", "clearance_mm", "off_grain_deg", "widths",
         "increment_mm", "selvedge_mm")


@pages.route("/", methods=["GET", "POST"])
def show():
    """The settings."""
    error = None
    if request.method == "POST":
        try:
            settings.change(stash(), {name: forms.text(name) for name in TYPED}, forms.token())
            tell(_("The settings are kept."))
            return redirect(url_for("settings.show"), 303)
        except StashError as refused:
            error = refused
    known = settings.preferences(stash())
    return render_template(
        "settings/show.html", error=error, typed=request.form if error else None,
        address=known.address or default_address(), older=known.older_addresses,
        units=known.units.value, edge=_length(known.edge_mm, known.units),
        clearance=_length(known.clearance_mm, known.units), off_grain=f"{known.off_grain_deg:g}",
        widths=", ".join(format_width(w, known.units) for w in known.widths_mm),
        increment=_length(known.increment_mm, known.units),
        selvedge=_length(known.selvedge_mm, known.units),
        here=request.host_url.rstrip("/"), number=lan_address(),
    ), status_of(error) if error else 200


def _length(mm: float, units: System) -> str:
    return format_length(mm, units) if mm else "0"


@pages.get("/secure")
def secure():
    """How a phone comes to trust this computer, in plain words."""
    return render_template(
        "settings/secure.html", secure=request.is_secure,
        has_certificate=(current_app.config["DATA"] / "secure" / "workroom.crt").exists(),
        number=lan_address(),
    )


@pages.get("/secure/workroom.crt")
def certificate():
    """The certificate that a phone is asked to trust; it holds nothing secret."""
    from flask import send_file

    from stash.errors import NotFound

    path = current_app.config["DATA"] / "secure" / "workroom.crt"
    if not path.exists():
        raise NotFound(_("There is no certificate yet: start with --share --https once."))
    return send_file(path, mimetype="application/x-x509-ca-cert", as_attachment=True,
                     download_name="lengthwise-workroom.crt")
