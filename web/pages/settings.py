"""What is decided once: the address on labels, units, cutting, and what the shop sells."""

from __future__ import annotations

from flask import Blueprint, current_app, redirect, render_template, request, url_for

from labels.address import default_address, lan_address, tidy
from stash.errors import InvalidInput, StashError
from stash.match.shop.lengths import INCREMENT_MM, SELVEDGE_MM, WIDTHS_SOLD_MM
from stash.units import System, format_length, format_width, parse_length
from web import forms
from web.errors import status_of
from web.opened import stash, system
from web.showing import tell
from web.texts import _

MOST_TILT_DEG = 15

pages = Blueprint("settings", __name__, url_prefix="/settings")

@pages.route("/", methods=["GET", "POST"])
def show():
    """The settings."""
    error = None
    if request.method == "POST":
        try:
            _save()
            tell(_("The settings are kept."))
            return redirect(url_for("settings.show"), 303)
        except StashError as refused:
            error = refused
    kept, units = stash().settings, system()
    return render_template(
        "settings/show.html", error=error, typed=request.form if error else None,
        address=kept.address or default_address(), older=kept.addresses[1:], units=units.value,
        edge=_length(kept.get("edge_mm", 0.0), units),
        clearance=_length(kept.get("clearance_mm", 0.0), units),
        off_grain=f"{kept.get('off_grain_deg', 0.0):g}",
        widths=", ".join(format_width(w, units) for w in kept.get("widths_mm", WIDTHS_SOLD_MM)),
        increment=_length(kept.get("increment_mm", INCREMENT_MM[units]), units),
        selvedge=_length(kept.get("selvedge_mm", SELVEDGE_MM), units),
        here=request.host_url.rstrip("/"), number=lan_address(),
    ), status_of(error) if error else 200


def _length(mm: float, units: System) -> str:
    return format_length(mm, units) if mm else "0"


def _save() -> None:
    changes: dict[str, object] = {"units": System(forms.text("units") or "metric").value}
    for name in ("edge_mm", "clearance_mm", "increment_mm", "selvedge_mm"):
        typed = forms.text(name)
        changes[name] = 0.0 if typed in ("", "0") else parse_length(typed, unit="mm", field=name)
    if not changes["increment_mm"]:
        raise InvalidInput(_("Say by what step the shop cuts, for example 10 cm."),
                           field="increment_mm")
    if max(changes["edge_mm"], changes["clearance_mm"], changes["selvedge_mm"]) > 100:
        raise InvalidInput(_("A margin of more than 10 cm would leave nothing to cut."),
                           field="edge_mm")
    tilt = forms.maybe_number("off_grain_deg", _("The tilt off the grain"), most=MOST_TILT_DEG)
    changes["off_grain_deg"] = tilt or 0.0
    changes["widths_mm"] = sorted(
        parse_length(width, unit="cm", field="widths")
        for width in forms.needed("widths", _("The widths sold")).replace(";", ",").split(",")
        if width.strip()
    )
    address = tidy(forms.needed("address", _("The address")))
    with stash().act(forms.token()):
        stash().settings.set_address(address)
        for name, value in changes.items():
            if stash().settings.get(name) != value:
                stash().settings.set(name, value)


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
