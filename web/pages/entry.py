"""One cut after the other: label, photograph, tape, next."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, session, url_for

from labels.reading import look_apart
from stash.errors import InvalidInput, NotFound, StashError
from stash.model import Cut
from stash.workroom import cuts, labels, places
from stash.workroom.entering import enter
from stash.workroom.measuring import SeenColour, colours_in
from web import entry_form, forms
from web.colour_form import said_colours
from web.config import PHOTO_BYTES
from web.error_pages import error_json, status_of, told
from web.formatting import cut_size, tell
from web.label_lookup import payload_of
from web.request_stash import stash
from web.texts import _

pages = Blueprint("entry", __name__, url_prefix="/entry")


@pages.get("/")
def show():
    """The screen for the next cut; ``after`` is the code of the last, else what she saved last."""
    return _screen()


def _screen(error: StashError | None = None):
    typed = request.form if error else None
    before, count = session.get("entered", ("", 0))
    last = _last((typed or request.args).get("after", before))
    number = (typed or request.args).get("number", count + 1, type=int)
    body = render_template(
        "entry/show.html", error=error, typed=typed, last=last, number=min(max(number, 1), 9999),
        code=(typed or request.args).get("code", ""),
        chips=entry_form.width_chips(last.width_mm if last else None),
        kinds=entry_form.kinds(), weights=entry_form.weights(), places=places.names(stash()),
        cloths=cuts.cloth_names(stash()),
    )
    return body, status_of(error) if error else 200


def _last(code: str) -> Cut | None:
    """The cut that was saved before this one, if it is still here."""
    try:
        return cuts.cut(stash(), code) if code else None
    except (InvalidInput, NotFound):
        return None


@pages.post("/")
def save():
    """Put one cut on record, with its photograph, and go on to the next."""
    request.max_content_length = PHOTO_BYTES
    try:
        photo = _photo()
        code = _code(photo)
        colour = _colour(photo)
        done = enter(stash(), entry_form.entered(colour and colour.colour), code, photo,
                     forms.token(), colour=colour)
    except StashError as error:
        return _screen(error)
    cut = done.now.cut
    tell(_said(cut, None if forms.text("colour") else colour), undo=done.event.id, onward=[
        (url_for("labels.show", code=cut.code), _("Print its label")),
        (url_for("become.show", cut=cut.code), _("What can I make?"))])
    session["entered"] = cut.code, min(max(request.form.get("number", 1, type=int), 1), 9998)
    return redirect(url_for("entry.show"), 303)


def _said(cut: Cut, colour: SeenColour | None) -> str:
    saved = _("Saved as %(code)s: %(name)s, %(size)s.", code=cut.code, name=cut.cloth.name,
              size=cut_size(cut))
    if colour is None:
        return saved
    return saved + " " + _("Its colour, by the photograph: %(colour)s.",
                           colour=said_colours((colour.colour,)))


def _photo() -> bytes | None:
    sent = request.files.get("photo")
    return forms.content_of(sent) if sent is not None and sent.filename else None


def _code(photo: bytes | None) -> str | None:
    """The label that was scanned or typed, else a blank one of ours in the photograph."""
    if typed := forms.text("code"):
        return payload_of(typed).code.text
    return next(iter(_blank(photo)), None) if photo else None


def _blank(photo: bytes) -> list[str]:
    try:
        seen = [reading.code for reading in look_apart(photo).readings]
    except StashError:  # it may be a picture of cloth alone
        return []
    return [code for code in seen if labels.what(stash(), code) == "blank"]


def _colour(photo: bytes | None) -> SeenColour | None:
    """The colour in the middle of the photograph; None where it cannot be told."""
    if not photo:
        return None
    try:
        return colours_in(photo)[0]
    except StashError:
        return None


@pages.post("/look")
def look():
    """For the script: what a photograph shows of a cut: its label, and its colour by name."""
    request.max_content_length = PHOTO_BYTES
    try:
        photo = _photo()
        if photo is None:
            raise InvalidInput("choose_a_photograph", field="photo")
    except StashError as error:
        return error_json(told(error), error), status_of(error)
    colour = _colour(photo)
    return {
        "code": next(iter(_blank(photo)), ""), "colour": colour.colour if colour else "",
        "name": said_colours((colour.colour,)) if colour else "",
        "error_de00": colour.error_de00 if colour else 0.0,
    }
