"""The scan page: by photograph, by live camera, typed, or from a scanner that types."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from labels.again import FORGET_AFTER_S
from labels.reading import look_apart
from stash.errors import InvalidInput, StashError
from stash.fact import Fact
from web import forms
from web.config import PHOTO_BYTES
from web.error_pages import error_json, status_of, told
from web.label_lookup import of_code, payload_of
from web.texts import _

pages = Blueprint("scan", __name__, url_prefix="/scan")


@pages.app_context_processor
def _camera() -> dict[str, int]:
    """What the page's camera is given: the rule of labels for one that is read twice."""
    return {"forget_after_ms": round(FORGET_AFTER_S * 1000)}


@pages.get("/")
def show():
    """All the ways to scan."""
    return render_template("scan/show.html", error=None, typed=None)


def _again(error: StashError):
    return render_template(
        "scan/show.html", error=error, typed=request.form
    ), status_of(error)


@pages.post("/typed")
def typed():
    """Open a typed code, or the address a hand scanner types."""
    try:
        return redirect(
            url_for("scanned.open", code=payload_of(forms.needed("code", _("The code"))).code), 303)
    except StashError as error:
        return _again(error)


@pages.post("/photo")
def photo():
    """Read every label in the photographs; a single one opens at once."""
    try:
        codes, hint = read_photos()
        if not codes:
            raise InvalidInput(hint or "no_label_in_photograph")
    except StashError as error:
        return _again(error)
    if len(codes) == 1 and not hint:
        return redirect(url_for("scanned.open", code=codes[0]), 303)
    return render_template("scan/found.html", found=[of_code(c) for c in codes], hint=hint)


def read_photos() -> tuple[list[str], Fact | None]:
    """The codes in all photographs that were sent, in order, and what to do about the rest."""
    request.max_content_length = PHOTO_BYTES
    photos = [photo for photo in request.files.getlist("photo") if photo.filename]
    if not photos:
        raise InvalidInput("choose_a_photograph", field="photo")
    codes: dict[str, None] = {}
    hint = None
    for sent in photos:
        sight = look_apart(forms.content_of(sent))
        codes |= dict.fromkeys(reading.code for reading in sight.readings)
        hint = hint or sight.hint
    return list(codes), hint


@pages.get("/what")
def what():
    """For the live camera: what the text it read stands for, as JSON."""
    try:
        return of_code(payload_of(request.args.get("text", "")[:300]).code.text).to_json()
    except StashError as error:
        return error_json(told(error), error), status_of(error)
