"""Everything that was recorded, newest first, and taking it back."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.workroom import history
from web import forms
from web.event_lines import kind_of, line
from web.formatting import tell
from web.label_lookup import of_code
from web.request_stash import stash
from web.texts import _

pages = Blueprint("history", __name__, url_prefix="/history")

AT_ONCE = 100


@pages.get("/")
def show():
    """A hundred events: the last ones, or those before the event of that number."""
    before = request.args.get("before", 0, type=int)
    recent = [line(e, kind_of(e.code)) for e in history.latest(stash(), AT_ONCE, before)]
    names = {code: of_code(code).name for code in {one.code for one in recent if one.code}}
    older = recent[-1].id if len(recent) == AT_ONCE and recent[-1].id > 1 else 0
    return render_template(
        "history/show.html", history=recent, names=names, older=older, later=before > 0)


@pages.post("/undo")
def undo():
    """Take one event back; the undo is an event too."""
    event = forms.count("event", _("Event"), 1, 10**12)
    history.undo(stash(), event, forms.token())
    tell(_("Taken back."))
    return redirect(forms.back_to(url_for("history.show")), 303)
