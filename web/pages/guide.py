"""Help: the guide in the reader's language."""

from __future__ import annotations

from flask import Blueprint, abort, render_template, send_file
from flask.typing import ResponseReturnValue

from stash.sentences.reader import LANGUAGES
from web.guide_texts import guide, picture
from web.request_stash import reader

pages = Blueprint("guide", __name__, url_prefix="/help")


@pages.get("/")
def index() -> ResponseReturnValue:
    """The ten pages by name."""
    return render_template("guide/index.html", guide=guide(reader().language))


@pages.get("/<name>/")
def show(name: str) -> ResponseReturnValue:
    """One page, with the way to the next."""
    all_pages = guide(reader().language)
    at = next((n for n, one in enumerate(all_pages) if one.name == name), None)
    if at is None:
        abort(404)
    following = all_pages[at + 1] if at + 1 < len(all_pages) else None
    return render_template("guide/show.html", one=all_pages[at], following=following)


@pages.get("/pictures/<language>/<name>")
def show_picture(language: str, name: str) -> ResponseReturnValue:
    """A picture of a page; the texts refer to it as ``../pictures/LANGUAGE/NAME``."""
    path = picture(language, name) if language in LANGUAGES else None
    if path is None:
        abort(404)
    return send_file(path, mimetype="image/webp", max_age=3600)
