"""Garments drafted from measurements: seen to scale, printed full size, saved."""

from __future__ import annotations

from flask import Blueprint, Response, render_template, request
from markupsafe import Markup

from stash.errors import InvalidInput, NotFound, StashError
from stash.model import Pattern, Person
from stash.sentences.regional import both_names
from stash.workroom import pattern_files, people
from stash.workroom.drafts import about, drafted, garments, title_of, word
from web.error_pages import status_of
from web.garment_form import MEASURE, option_fields, options_of, person_of
from web.request_stash import reader, stash
from web.texts import _, headed

pages = Blueprint("drafts", __name__, url_prefix="/drafts")

TYPES = {"svg": "image/svg+xml", "dxf": "image/vnd.dxf"} | dict.fromkeys(
    ("a4.pdf", "letter.pdf", "a0.pdf"), "application/pdf")


@pages.get("/")
def index():
    """Every garment that can be drafted."""
    return render_template(
        "drafts/index.html", garments=[about(name) for name in garments()],
        people=people.everyone(stash()), word=word,
    )


@pages.get("/<name>")
def show(name: str):
    """One garment: measurements, options, and the pieces drawn to scale."""
    info, pattern, error, person = about(name), None, None, None
    days: list[tuple[str, str]] = []
    try:
        if person := person_of(request.args):
            day = request.args.get("measured", "")
            days = [(s.measured_on, s.measured_on) for s in people.measure_sets(person)
                    if s.measured_on]
            pattern = drafted(person, name, options_of(info, request.args), day)
    except StashError as refused:
        error = refused
    body = render_template(
        "drafts/show.html", info=info, pattern=pattern, error=error, typed=request.args,
        people=[(p.name, p.name) for p in people.everyone(stash())], options=option_fields(info),
        measures=[(MEASURE + key, headed(both_names(word(key), reader())))
                  for wanted in info.measurements for key in wanted.split("|")[:1]],
        drawings=[Markup(svg) for svg in pattern_files.preview(pattern, _(info.title), reader())]
        if pattern else "",
        drafted_from=_drafted_from(pattern, person) if pattern and person else {},
        estimated=[_(word(key)) for key in pattern.estimated] if pattern else [],
        query=request.args.to_dict(), days=days, fits=bool(people.fit_of(name)),
    )
    return body, status_of(error) if error else 200


def _drafted_from(pattern: Pattern, person: Person) -> dict[str, float]:
    """What it was drafted from, in mm; the bust or the chest as the person's is called, once."""
    other = "bust" if "chest" in person.measurements_mm else "chest"
    return {key: mm for key, mm in pattern.measurements_mm.items() if key != other}


@pages.get("/<name>/pattern.<form>")
def save(name: str, form: str):
    """The pattern as a file: drawing, exchange file, or full-size pages to print."""
    person = person_of(request.args)
    if person is None:
        raise InvalidInput("say_whom_drafted", field="person")
    day = request.args.get("measured", "")
    options = options_of(about(name), request.args)
    return pattern_file(drafted(person, name, options, day), name, form)


def pattern_file(pattern: Pattern, name: str, form: str) -> Response:
    """One of the forms a pattern can be saved in."""
    if form not in pattern_files.FORMS:
        raise NotFound("pattern_forms")
    title = _(title_of(name))
    return saved_file(pattern_files.content(pattern, form, title, reader()), name, form)


def saved_file(content: bytes, name: str, form: str) -> Response:
    """A file to save, under the pattern's name."""
    safe = "".join(c if c.isascii() and c.isalnum() else "-" for c in name)
    return Response(content, mimetype=TYPES[form], headers={
        "Content-Disposition": f'attachment; filename="{safe}.{form}"'})
