"""Errors as a page with one sentence, or as JSON for a script; never a traceback."""

from __future__ import annotations

import logging

from flask import Flask, Response, current_app, g, render_template, request
from werkzeug.exceptions import BadHost, HTTPException

from stash.errors import (
    Conflict,
    InvalidInput,
    NotFound,
    StashError,
    StoreTooNew,
    Unavailable,
)
from stash.fact import Fact, fact
from stash.sentences import say
from stash.workroom.opening import trouble_of
from stash.workroom.safekeeping import trouble_behind
from web.config import PHOTO_BYTES
from web.devices.door import SAFE, Refused
from web.forms import was_chosen
from web.request_stash import reader, wants_json
from web.texts import _

STATUS = {NotFound: 404, InvalidInput: 422, Conflict: 409, StoreTooNew: 503, Unavailable: 503}
SENTENCES = {
    400: "This address is not one that the stash answers to. Open it by its number address, "
         "or enter the name under Settings first.",
    403: "This change was asked for by a page from somewhere else, so it was not made.",
    404: "There is no page at this address. The stash itself is one tap away.",
    405: "This address cannot be used like that. Go back and use the buttons on the page.",
    500: "Something went wrong here. Please go back and try again.",
}


MENDED = frozenset({"record_missing", "record_damaged", "record_unusable", "record_unsound"})
"""What the page of copies can put right."""


def install(app: Flask) -> None:
    """Answer every error a request can meet."""
    app.jinja_env.globals.update(told=told, was_chosen=was_chosen)
    app.register_error_handler(StashError, show)
    app.register_error_handler(HTTPException, show_http)
    app.register_error_handler(Exception, show_unexpected)


def status_of(error: StashError) -> int:
    """The HTTP status for one of our errors."""
    if isinstance(error, Refused):
        return 429 if error.fact.kind == "too_many_requests" else 403
    return next((s for kind, s in STATUS.items() if isinstance(error, kind)), 400)


def told(what: StashError | Fact) -> str:
    """The sentence of one of our own errors or of a fact, in this reader's units and language."""
    return say(what.fact if isinstance(what, StashError) else what, reader())


def show(error: StashError):
    """One of our own errors: its sentence and its status."""
    body, status = _answer(told(error), status_of(error), error)
    if error.fact.kind == "device_unknown":
        # By this a device that was revoked knows to drop its copy (static/js/service_worker.js).
        return body, status, {"Lengthwise-Device": "unknown"}
    return body, status


def error_json(sentence: str, error: StashError | None) -> dict[str, object]:
    """An error as a script reads it: the sentence, and the fact that it says."""
    fact = error.fact.to_json() if error else None
    return {"error": sentence, "fact": fact, "field": getattr(error, "field", None)}


def show_http(error: HTTPException):
    """An HTTP error in our own words."""
    status = error.code or 500
    if 300 <= status < 400:
        return error
    return _answer(_sentence(status), status)


def _sentence(status: int) -> str:
    if status == 413:
        return _("This file is too large: photographs up to %(most_mb)d MB can be read. "
                 "Nothing was changed.", most_mb=PHOTO_BYTES // 1_000_000)
    return _(SENTENCES.get(status, SENTENCES[500]))


def show_unexpected(error: Exception):
    """A bug: logged in full, shown as one sentence that says what was recorded all the same."""
    if (trouble := trouble_of(error)) is not None:
        return show(trouble)
    logging.getLogger("web").exception("%s %s", request.method, request.path, exc_info=error)
    left = _left_behind()
    if left.kind != "failed_recorded" and (fault := trouble_behind(current_app.config["DATA"])):
        return show(fault)
    return _answer(told(left), 500)


def _left_behind() -> Fact:
    """What this request recorded before it failed; looked up, never presumed."""
    if "stash" not in g:
        return fact("failed_unrecorded")
    try:
        recorded = g.stash.ledger.recorded_here()
    except Exception:  # the record itself cannot be asked any more
        return fact("failed_unknown")
    if not recorded:
        return fact("failed_unrecorded")
    return fact("failed_recorded", count=len(recorded), entry=recorded[-1])


def _answer(sentence: str, status: int, error: StashError | None = None):
    if wants_json():
        return error_json(sentence, error), status
    if isinstance(request.routing_exception, BadHost):  # no link can be made to such a host
        return Response(sentence, status, mimetype="text/plain"), status
    mend = error is not None and error.fact.kind in MENDED
    stranger = error is not None and error.fact.kind == "device_unknown"
    return render_template("error.html", sentence=sentence, status=status, mend=mend,
                           stranger=stranger, looking=request.method in SAFE), status
