"""What a label opens: a cut, a bin, a place, or the question what this is."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import InvalidInput, NotFound, StashError
from stash.model import Code
from stash.workroom import labels
from stash.workroom.bins import receive as receive_bin
from stash.workroom.cuts import receive as receive_cut
from stash.workroom.history import Event
from stash.workroom.places import receive as receive_place
from web import bin_form, cut_form, forms
from web.error_pages import status_of, told
from web.formatting import tell
from web.pages import bins, cuts, places
from web.request_stash import stash
from web.texts import _

pages = Blueprint("scanned", __name__)


@pages.route("/c/<path:code>", methods=["GET", "POST"])
@pages.route("/C/<path:code>", methods=["GET", "POST"], endpoint="open_upper")
def open(code: str):  # noqa: A001 - the word for what a scan does
    """Open what carries this code, whatever the case it was read in."""
    try:
        text = str(Code.parse(code.strip("/")))
    except InvalidInput as error:
        return _not_ours(_("This label was not read right"), told(error), code, 404)
    match labels.what(stash(), text):
        case "cut":
            return cuts.page(text)
        case "bin":
            return bins.page(text)
        case "place":
            return places.page(text)
        case "blank":
            return _what_is_this(text)
        case _ if "adopt" in request.args:
            return _what_is_this(text)
    return _not_ours(
        _("Not one of this stash’s labels"),
        _("The code %(code)s is well formed, but it was not given out here: it may belong to "
          "another stash. Nothing is recorded under it.", code=text),
        text, 404, adopt=text,
    )


def _not_ours(heading: str, sentence: str, code: str, status: int, adopt: str = ""):
    return render_template(
        "scanned/not_ours.html", heading=heading, sentence=sentence, code=code[:20], adopt=adopt
    ), status


def _what_is_this(code: str):
    """Ask what a blank label is on, and record it."""
    error, what = None, request.form.get("what", "")
    if request.method == "POST":
        try:
            text, event = _receive(code, what)
            tell(text, undo=event.id)
            return redirect(url_for("scanned.open", code=code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "scanned/blank.html", code=code, error=error, what=what,
        typed=request.form if error else None,
        **(bin_form.suggestions() | cut_form.suggestions()),
    ), status_of(error) if error else 200


def _receive(code: str, what: str) -> tuple[str, Event]:
    if what == "cut":
        cut = cut_form.cut_from_form(code)
        return _("Saved: %(name)s.", name=cut.cloth.name), receive_cut(
            stash(), cut, code, forms.token()).event
    if what == "bin":
        held = bin_form.bin_from_form(code)
        return _("Saved: %(name)s.", name=held.notion.name), receive_bin(
            stash(), held, code, forms.token()).event
    if what == "place":
        name = forms.needed("place_name", _("Name of the place"))
        event, place = receive_place(stash(), name, code, forms.token())
        return _("Saved: the place %(name)s.", name=place.name), event
    raise NotFound("say_what_label_is_on")
