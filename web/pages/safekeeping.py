"""Copies of the record: where the last one lies, whether all is sound, and the way back."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from flask import Blueprint, Response, current_app, redirect, render_template, url_for

from stash.errors import StashError
from stash.workroom import safekeeping
from stash.workroom.safekeeping import Findings
from web.formatting import tell
from web.request_stash import stash
from web.texts import _

BACKUP = "lengthwise-backup.zip"
pages = Blueprint("safekeeping", __name__, url_prefix="/record")


@pages.get("/")
def show():
    """Where the copies are; when the record cannot be opened, the one that can be brought back."""
    return _page()


@pages.post("/check")
def check():
    """Look everything through; nothing is changed."""
    return _page(safekeeping.check_record(_data()))


@pages.post("/mend")
def mend():
    """Put the record right from what is sound of it and its newest good copy."""
    done = safekeeping.put_right(_data())
    if done.after.ok:
        tell(_("The record is sound: entries %(n)d.", n=done.after.events))
        return redirect(url_for("safekeeping.show"), 303)
    return _page(done.after)


@pages.get("/backup.zip")
def backup():
    """Everything in one file, to keep elsewhere."""
    room = Path(tempfile.mkdtemp())
    try:
        safekeeping.back_up(stash(), room / BACKUP)
    except BaseException:
        shutil.rmtree(room, ignore_errors=True)
        raise
    return Response(_sent(room), mimetype="application/zip", headers={
        "Content-Disposition": f'attachment; filename="{BACKUP}"'})


def _sent(room: Path) -> Iterator[bytes]:
    """The file piece by piece; its folder goes with the last piece."""
    try:
        with (room / BACKUP).open("rb") as file:
            while piece := file.read(1_000_000):
                yield piece
    finally:
        shutil.rmtree(room, ignore_errors=True)


def _data() -> Path:
    return Path(current_app.config["DATA"])


def _page(report: Findings | None = None):
    try:
        places = safekeeping.copies(stash())
    except StashError as broken:
        offered = safekeeping.good_copy(_data())
        return render_template(
            "record/show.html", broken=broken, offered=offered.name if offered else ""), 503
    return render_template("record/show.html", broken=None, places=places, report=report)


