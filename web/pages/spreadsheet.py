"""The stash from a spreadsheet and into one: columns shown, every row's fate told, then written.

Between the pages the file travels in the form, so that nothing of it is kept here.
"""

from __future__ import annotations

import base64
import binascii
import zlib

from flask import Blueprint, Response, redirect, render_template, request, url_for

from stash.errors import InvalidInput, StashError
from stash.workroom.spreadsheets.bring_in import BroughtIn, bring_in
from stash.workroom.spreadsheets.headings import (
    CellTable,
    Headings,
    as_said,
    bare_column,
    headings_of,
    meanings,
    units_of,
)
from stash.workroom.spreadsheets.take_out import KINDS, filled, template
from web import forms
from web.error_pages import status_of
from web.formatting import tell
from web.request_stash import reader, stash
from web.texts import _, ngettext

pages = Blueprint("spreadsheet", __name__, url_prefix="/spreadsheet")

LARGEST_BYTES = 8_000_000
SHOWN = 400
"""So many rows are shown; what is refused is shown first."""
NAMES = {"new": "comes in", "same": "already so", "changed": "put right", "refused": "refused"}


@pages.get("/")
def show():
    """Send a table; take one to fill in, or all that is here."""
    return _form()


def _form(error: StashError | None = None):
    return render_template("spreadsheet/show.html", error=error, typed=None, kinds=KINDS), (
        status_of(error) if error else 200)


@pages.get("/template.<kind>")
def empty(kind: str):
    """A table to fill in."""
    return _file(template(reader(), kind), kind, "lengthwise-template")


@pages.get("/stash.<kind>")
def out(kind: str):
    """All that is here, in the same columns."""
    return _file(filled(stash(), reader(), kind), kind, "lengthwise-stash")


def _file(content: bytes, kind: str, name: str) -> Response:
    return Response(content, mimetype=KINDS[kind], headers={
        "Content-Disposition": f'attachment; filename="{name}.{kind}"'})


@pages.post("/")
def fates():
    """What would become of each row, with the columns as guessed or as she says; or write it."""
    request.max_content_length = request.max_form_memory_size = 2 * LARGEST_BYTES
    try:
        content, name = _content()
        table, headings = headings_of(content)
        if "meaning-0" in request.form:
            headings = as_said(headings, *_said(headings))
    except StashError as error:
        return _form(error)
    wanted = _units_wanted(table, headings)
    try:
        if request.form.get("act") == "write" and not wanted:
            return _write(content, name, table, headings)
        done, error = (None if wanted else bring_in(stash(), table, headings, rehearse=True)), None
    except StashError as refused:
        done, error = None, refused
    return _preview(content, name, table, headings, wanted=wanted, done=done, error=error)


def _write(content: bytes, name: str, table: CellTable, headings: Headings):
    done = bring_in(stash(), table, headings, forms.token())
    if done.count("refused"):
        return _preview(content, name, table, headings, wanted=[], done=done, error=None)
    if done.event is None:
        tell(_("Nothing was changed."))
    else:
        rows = max(done.written, 1)
        tell(ngettext("%(num)d row saved.", "%(num)d rows saved.", rows) % {"num": rows},
             undo=done.event.id)
    return redirect(url_for("home.show"), 303)


def _preview(
    content: bytes, name: str, table: CellTable, headings: Headings, *, wanted: list[str],
    done: BroughtIn | None, error: StashError | None,
):
    fates_told = sorted(done.fates, key=lambda one: one.fate != "refused") if done else []
    body = render_template(
        "spreadsheet/preview.html", name=name, packed=_packed(content), table=table,
        headings=headings, wanted=wanted, done=done, error=error, typed=None,
        fates=fates_told[:SHOWN], more=len(fates_told) - SHOWN,
        names={key: _(text) for key, text in NAMES.items()},
        meanings=[("", _("left out")), *meanings(reader().language)], units_of=units_of,
        examples=_examples(table, headings),
    )
    return body, 422 if error or (done and done.count("refused")) else 200


def _examples(table: CellTable, headings: Headings) -> list[str]:
    """The first cell of each column that holds anything."""
    rows = table.rows[headings.row + 1 :]
    return [next((row[c.at][:40] for row in rows if c.at < len(row) and row[c.at]), "")
            for c in headings.columns]


def _units_wanted(table: CellTable, headings: Headings) -> list[str]:
    return [c.heading for c in headings.read if bare_column(table, headings, c.key)]


def _said(headings: Headings) -> tuple[dict[int, str], dict[int, str]]:
    """(what each column says, its unit) as the form has it; a unit that cannot be is none."""
    means = {c.at: forms.text(f"meaning-{c.at}") for c in headings.columns}
    units = {at: forms.text(f"unit-{at}") for at in means}
    return means, {at: unit if unit in units_of(means[at]) else "" for at, unit in units.items()}


def _content() -> tuple[bytes, str]:
    """The file that was sent now, or the one that travels in the form; and its name."""
    sent = request.files.get("file")
    if sent is not None and sent.filename:
        return forms.content_of(sent), sent.filename[:100]
    packed = request.form.get("packed", "")
    if not packed:
        raise InvalidInput("choose_a_file", field="file")
    try:
        opened = zlib.decompressobj()
        content = opened.decompress(base64.b64decode(packed, validate=True), LARGEST_BYTES + 1)
    except (binascii.Error, zlib.error, ValueError):
        raise InvalidInput("choose_a_file", field="file") from None
    return content, forms.text("name") or _("table")


def _packed(content: bytes) -> str:
    return base64.b64encode(zlib.compress(content, 6)).decode("ascii")
