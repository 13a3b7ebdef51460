"""What is decided once: the address on labels, units, cutting, and what the shop sells."""

from __future__ import annotations

from flask import Blueprint, current_app, redirect, render_template, request, url_for

from labels.local_name import default_address, lan_address
from stash.errors import StashError
from stash.quantity import Quantity
from stash.workroom import settings
from web import forms
from web.devices.door import Refused
from web.devices.who_asks import guest
from web.error_pages import status_of
from web.formatting import in_inches, local, shown_as, tell
from web.request_stash import forget_reader, stash, system
from web.texts import _

MACHINES = {
    "": "not said",
    "lockstitch": "lockstitch only",
    "lockstitch, zigzag": "lockstitch and zigzag",
    "lockstitch, zigzag, overlock-3": "lockstitch, zigzag and a three-thread overlocker",
    "lockstitch, zigzag, overlock-4": "lockstitch, zigzag and a four-thread overlocker",
}
pages = Blueprint("settings", __name__, url_prefix="/settings")

TYPED = ("address", "units", "language", "edge_mm", "clearance_mm", "off_grain_deg", "widths",
         "increment_mm", "selvedge_mm", "machines", "remnant_mm")


@pages.route("/", methods=["GET", "POST"])
def show():
    """The settings."""
    error = None
    if request.method == "POST":
        try:
            refuse_address()
            sent = [name for name in TYPED if name in request.form]  # what is not sent stays
            edited = {name: forms.text(name) for name in sent if not forms.untouched(name)}
            settings.change(stash(), edited, forms.token(), reads=system())
            forget_reader()
            tell(_("The settings are saved."))
            return redirect(url_for("settings.show"), 303)
        except StashError as refused:
            error = refused
    known = settings.preferences(stash())
    apart = "; " if "," in local("1.5") else ", "  # a comma is the decimal sign here
    return render_template(
        "settings/show.html", error=error, typed=request.form if error else None,
        address=known.address or default_address(), older=known.older_addresses,
        known=known, units=known.units.value, off_grain=f"{known.off_grain_deg:g}",
        remnant=shown_as(Quantity.PATTERN)(known.remnant_mm),
        edge=_margin(known.edge_mm), clearance=_margin(known.clearance_mm),
        selvedge=_margin(known.selvedge_mm), increment=shown_as(Quantity.STEP)(known.increment_mm),
        widths=apart.join(map(shown_as(Quantity.WIDTH), known.widths_mm)),
        machines=[(value, _(text)) for value, text in MACHINES.items()],
        here=request.host_url.rstrip("/"), number=lan_address(),
    ), status_of(error) if error else 200


@pages.post("/units")
def choose_units():
    """One tap, before the first length is typed; back to the page that asked."""
    event = settings.choose_units(stash(), forms.text("units"), forms.token())
    forget_reader()
    inches = _("Lengths are in yards and inches; each is typed with its unit.")
    metric = _("Lengths are in metres and centimetres; a bare number is centimetres.")
    tell(inches if in_inches() else metric, undo=event.id)
    return redirect(forms.back_to(url_for("settings.show")), 303)


def refuse_address() -> None:
    """The address on labels decides which hosts are trusted: only this computer changes it."""
    if not guest().here and not forms.untouched("address"):
        raise Refused("only_on_the_computer")


def _margin(mm: float) -> str:
    return shown_as(Quantity.MARGIN)(mm) if mm else "0"


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
        raise NotFound("no_certificate_yet")
    return send_file(path, mimetype="application/x-x509-ca-cert", as_attachment=True,
                     download_name="lengthwise-workroom.crt")
