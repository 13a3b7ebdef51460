"""Photographs of cuts and bins: kept and shown."""

from __future__ import annotations

from flask import Blueprint, redirect, request, send_file, url_for

from stash.errors import InvalidInput
from stash.workroom import photos
from web import forms
from web.config import PHOTO_BYTES
from web.formatting import tell
from web.request_stash import stash
from web.texts import _

pages = Blueprint("photos", __name__, url_prefix="/photos")


@pages.post("/<code>")
def add(code: str):
    """Keep a photograph of what carries this code."""
    request.max_content_length = PHOTO_BYTES
    sent = request.files.get("photo")
    if sent is None or not sent.filename:
        raise InvalidInput("choose_a_photograph", field="photo")
    event = photos.add(stash(), code, forms.content_of(sent), token=forms.token())
    tell(_("The photograph is saved."), undo=event.id)
    return redirect(url_for("scanned.open", code=code), 303)


@pages.get("/<code>/<photo>")
def show(code: str, photo: str):
    """One photograph, small when asked for."""
    path = photos.file(stash(), code, photo, small="small" in request.args)
    return send_file(path, mimetype="image/jpeg", max_age=86400)


@pages.post("/<code>/<photo>/remove")
def remove(code: str, photo: str):
    """Take a photograph off; undo brings it back."""
    event = photos.remove(stash(), code, photo, token=forms.token())
    tell(_("The photograph is taken off."), undo=event.id)
    return redirect(url_for("scanned.open", code=code), 303)
