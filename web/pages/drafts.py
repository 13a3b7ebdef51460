"""Garments drafted from measurements: seen to scale, printed full size, saved."""

from __future__ import annotations

from flask import Blueprint, Response, render_template, request
from markupsafe import Markup

from stash.draft.body import word
from stash.draft.catalogue import about, garments
from stash.errors import InvalidInput, NotFound, StashError
from stash.model import Pattern
from stash.pattern.drawing import preview_svg, write_svg
from stash.pattern.dxf_writing import write_dxf
from stash.pattern.print_pages import tiled_pdf
from web.errors import status_of
from web.garment_form import MEASURE, drafted, option_fields, options_of, person_of
from web.opened import stash, system
from web.texts import _

pages = Blueprint("drafts", __name__, url_prefix="/drafts")

FORMS = {
    "svg": ("image/svg+xml", lambda p, t: write_svg(p, title=t, system=system())),
    "dxf": ("image/vnd.dxf", lambda p, t: write_dxf(p)),
    "a4.pdf": ("application/pdf", lambda p, t: tiled_pdf(p, "a4", title=t, system=system())),
    "letter.pdf": (
        "application/pdf", lambda p, t: tiled_pdf(p, "letter", title=t, system=system())),
}


@pages.get("/")
def index():
    """Every garment that can be drafted."""
    return render_template(
        "drafts/index.html", garments=[about(name) for name in garments()],
        people=stash().people.all(), word=word,
    )


@pages.get("/<name>")
def show(name: str):
    """One garment: measurements, options, and the pieces drawn to scale."""
    info, pattern, error = about(name), None, None
    try:
        if person := person_of(request.args):
            pattern = drafted(name, person, options_of(info, request.args))
    except StashError as refused:
        error = refused
    body = render_template(
        "drafts/show.html", info=info, pattern=pattern, error=error, typed=request.args,
        people=[(p.name, p.name) for p in stash().people.all()], options=option_fields(info),
        measures=[(MEASURE + key, _(word(key)).capitalize())
                  for wanted in info.measurements for key in wanted.split("|")[:1]],
        drawing=Markup(preview_svg(pattern, title=_(info.title), system=system()))
        if pattern else "",
        estimated=[_(word(key)) for key in pattern.estimated] if pattern else [],
        query=request.args.to_dict(),
    )
    return body, status_of(error) if error else 200


@pages.get("/<name>/pattern.<form>")
def save(name: str, form: str):
    """The pattern as a file: drawing, exchange file, or full-size pages to print."""
    if form not in FORMS:
        raise NotFound(_("A pattern can be saved as SVG, DXF or PDF."))
    person = person_of(request.args)
    if person is None:
        raise InvalidInput(_("Say first for whom it is drafted."), field="person")
    return pattern_file(drafted(name, person, options_of(about(name), request.args)), name, form)


def pattern_file(pattern: Pattern, name: str, form: str) -> Response:
    """One of the forms a pattern can be saved in."""
    kind, write = FORMS[form]
    safe = "".join(c if c.isascii() and c.isalnum() else "-" for c in name)
    return Response(write(pattern, name), mimetype=kind, headers={
        "Content-Disposition": f'attachment; filename="{safe}.{form}"'})
