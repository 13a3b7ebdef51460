"""Her own patterns: typed in, imported from a file, traced; each kept in every version."""

from __future__ import annotations

from flask import Blueprint, Response, redirect, render_template, request, url_for
from markupsafe import Markup

from labels.calibration_on_paper import calibration_sheet_pdf
from stash.errors import InvalidInput, NotFound, StashError
from stash.model import Construction, Part, Pattern, Piece, Role
from stash.quantity import Quantity, read_length
from stash.sentences import say
from stash.workroom import altering, pattern_files, patterns, people
from stash.workroom.patterns import TypedPiece, read_pattern, typed_piece
from web import forms
from web.config import PHOTO_BYTES
from web.error_pages import status_of
from web.formatting import tell
from web.pages.drafts import pattern_file
from web.request_stash import reader, stash, system
from web.texts import _

pages = Blueprint("patterns", __name__, url_prefix="/patterns")

ROWS = 8
SHEETS = 8
POINTED = {
    "fold": "the fold of a half: open it out there",
    "grain": "an edge along which the grain runs: turn the piece",
    "lengthen": "where it may be lengthened or shortened",
    "notch": "a notch on the edge",
    "mark": "a place to mark",
}


@pages.get("/")
def index():
    """Every pattern of her own, and the ways one comes in."""
    return _page()


def _page(error: StashError | None = None):
    return render_template(
        "patterns/index.html", kept=patterns.everything(stash()), error=error, rows=range(ROWS),
        typed=request.form if error else None,
        people=[(p.name, p.name) for p in people.everyone(stash())],
    ), status_of(error) if error else 200


@pages.post("/typed")
def typed():
    """A pattern of typed pieces."""
    try:
        name = forms.needed("name", _("The name of the pattern"))
        pieces = tuple(piece for row in range(ROWS) if (piece := _typed_row(row)))
        if not pieces:
            raise InvalidInput("type_a_piece", field="piece-0")
        return _keep(name, pieces, "typed")
    except StashError as error:
        return _page(error)


def _typed_row(row: int) -> Piece | None:
    name = forms.text(f"piece-{row}")
    if not name:
        return None
    widths = forms.needed(f"width-{row}", _("The width of %(piece)s", piece=name))
    return typed_piece(TypedPiece(
        name=name,
        length_mm=forms.length(f"length-{row}", Quantity.PATTERN),
        widths_mm=tuple(
            read_length(part, Quantity.PATTERN, field=f"width-{row}", system=system())
            for part in widths.replace("–", "-").split("-")),
        quantity=forms.count(f"quantity-{row}", _("How many"), 1, 200)
        if forms.text(f"quantity-{row}") else 1,
        mirrored_pair=forms.ticked(f"mirrored-{row}"),
        on_fold=forms.ticked(f"fold-{row}"),
    ))


@pages.post("/import")
def bring_in():
    """A pattern from an SVG or DXF file."""
    request.max_content_length = PHOTO_BYTES
    try:
        sent = request.files.get("file")
        if sent is None or not sent.filename:
            raise InvalidInput("choose_a_file", field="file")
        data, units = forms.content_of(sent), forms.text("units") or None
        size = forms.text("size") or None
        if not size and forms.text("wearer"):
            person = people.person(stash(), forms.text("wearer"))
            size, said = patterns.size_for(data, person, forms.text("sizes", most=2000), units)
            if said:
                tell(say(said, reader()))
        reading = read_pattern(data, units, size=size)
        source = forms.short(sent.filename, "file")
        name = forms.text("title") or source.rpartition(".")[0]
        for note in reading.notes:
            tell(say(note, reader()), "open")
        return _keep(name, reading.pieces, source)
    except StashError as error:
        return _page(error)


def _keep(name: str, pieces: tuple[Piece, ...], source: str):
    event, _kept = patterns.keep(stash(), name, pieces, source, forms.token())
    tell(_("The pattern “%(name)s” is saved.", name=name), undo=event.id)
    return redirect(url_for("patterns.show", name=name), 303)


@pages.get("/own/<path:name>")
def show(name: str):
    """One pattern, drawn to scale, with its versions."""
    return _shown(name)


def _shown(name: str, error: StashError | None = None):
    versions = patterns.versions(stash(), name)
    kept = patterns.kept(stash(), name, request.args.get("version", type=int))
    return render_template(
        "patterns/show.html", kept=kept, pattern=kept.pattern, versions=versions, error=error,
        typed=request.form if error else None,
        cloths=[("", _("any"))] + [(c.value, _(c.value)) for c in Construction],
        parts=[(p.value, _(p.value)) for p in Part], roles=[(r.value, _(r.value)) for r in Role],
        drawing=Markup(pattern_files.preview(kept.pattern, kept.name, reader())),
        pointed=[(key, _(text)) for key, text in POINTED.items()],
        views=[pattern_files.PointingView(p) for p in kept.pattern.pieces],
        newest=kept.version == versions[-1].version,
        again=[(p.name, p.name) for p in people.everyone(stash())]
        if altering.can_be_drawn_again(kept.pattern) else [],
    ), status_of(error) if error else 200


@pages.post("/own/<path:name>/correct")
def correct(name: str):
    """What a pattern is, set right: a new version, and the one before stays."""
    try:
        kept = patterns.kept(stash(), name).pattern
        event, _new = patterns.correct(stash(), name, _change(kept), forms.token())
        tell(_("The pattern “%(name)s” is saved.", name=name), undo=event.id)
        return redirect(url_for("patterns.show", name=name), 303)
    except StashError as error:
        return _shown(name, error)


def _change(pattern: Pattern) -> patterns.PatternChange:
    """What the form says differently from the pattern."""
    lines = [(row, piece, _corrections(row, piece)) for row, piece in enumerate(pattern.pieces)]
    listed = forms.text("needs", most=2000).replace(";", "\n").splitlines()
    needs = [part for part in listed if part.strip()]
    wearer, stretch = forms.text("wearer"), forms.text("stretch")
    cautions = [c.strip() for c in forms.text("cautions", most=2000).splitlines() if c.strip()]
    lie, cloth = forms.text("direction"), forms.text("cloth")
    other = set(Construction) - set(pattern.wants.constructions[:1])
    return patterns.PatternChange(
        wearer=wearer if wearer != pattern.wearer else None,
        pieces=tuple(
            patterns.parse_change(f"{piece.name}: {', '.join(words)}")
            for _row, piece, words in lines if words
        ),
        needs=tuple(map(patterns.parse_need, needs)),
        mass_gsm=patterns.parse_weights(forms.text("weight")) if forms.text("weight") else None,
        stretch_pct=patterns.parse_percent(stretch) if stretch else None,
        cautions=tuple(cautions) if tuple(cautions) != pattern.cautions else (),
        one_way=lie == "one way" if lie else None,
        constructions=(Construction(cloth),) if cloth in other else (),
    )


def _corrections(row: int, piece: Piece) -> list[str]:
    """The words of a correction for one piece: only what differs."""
    words = []
    if (part := forms.text(f"part-{row}")) and part != piece.part.value:
        words.append(part)
    if (role := forms.text(f"role-{row}")) and role != piece.role.value:
        words.append(role)
    if (count := forms.text(f"quantity-{row}")) and count != str(piece.quantity):
        words.append(f"cut {count}")
    lie = forms.text(f"lie-{row}")
    if lie and (lie == "pair") != piece.mirrored_pair:
        words.append(lie)
    words += [forms.text(f"fold-{row}")] if forms.text(f"fold-{row}") else []
    if turn := forms.text(f"grain-{row}"):
        words.append(f"grain {turn}")
    for key, said in (("allowance", "allowance"), ("lengthen", "lengthen at")):
        if (mm := forms.maybe_length(f"{key}-{row}", Quantity.PATTERN)) is not None:
            words.append(f"{said} {mm}mm")
    return words


@pages.get("/own/<path:name>/pointed-<int:row>.svg")
def pointed(name: str, row: int):
    """One piece as a picture to point at."""
    view = _view(name, row)
    return Response(view.svg(), mimetype="image/svg+xml", headers={"Cache-Control": "no-store"})


@pages.post("/own/<path:name>/point-<int:row>")
def point(name: str, row: int):
    """What is meant by a tap on the drawing, or by a place that was typed: a new version."""
    try:
        view = _view(name, row)
        down, across = _tapped(view)
        what = forms.text("what")
        if what == "lengthen":
            words = f"lengthen at {down:.1f}mm"
        elif what in ("fold", "grain", "notch", "mark"):
            words = f"{what} at {down:.1f}mm down {across:.1f}mm across"
        else:
            raise InvalidInput("point_at_what", field="what")
        change = patterns.PatternChange(
            pieces=(patterns.parse_change(f"{view.piece.name}: {words}"),))
        event, _new = patterns.correct(stash(), name, change, forms.token())
    except StashError as error:
        return _shown(name, error)
    tell(_("The pattern “%(name)s” is saved.", name=name), undo=event.id)
    return redirect(url_for("patterns.show", name=name, _anchor="point"), 303)


def _view(name: str, row: int) -> pattern_files.PointingView:
    pieces = patterns.kept(stash(), name).pattern.pieces
    if row >= len(pieces):
        raise NotFound("no_such_pattern_piece")
    return pattern_files.PointingView(pieces[row])


def _tapped(view: pattern_files.PointingView) -> tuple[float, float]:
    """How far down and across; of a picture the browser tells the pixel."""
    right, down = forms.text("at.x"), forms.text("at.y")
    if right.isdecimal() and down.isdecimal() and (right, down) != ("0", "0"):
        x, y = view.from_corner_mm(float(right), float(down))
        return max(0.0, x), max(0.0, y)
    return (forms.length_or_nothing("down", Quantity.PATTERN),
            forms.length_or_nothing("across", Quantity.PATTERN))


@pages.get("/own/<path:name>/pattern.<form>")
def save(name: str, form: str):
    """The pattern as a file or as full-size pages."""
    return pattern_file(patterns.kept(stash(), name).pattern, name, form)


@pages.post("/own/<path:name>/remove")
def remove(name: str):
    """Take a pattern off the list."""
    event = patterns.remove(stash(), name, forms.token())
    tell(_("The pattern is off the list."), undo=event.id)
    return redirect(url_for("patterns.index"), 303)


@pages.get("/calibration-sheet.pdf")
def calibration_sheet():
    """The sheets that lie beside pieces when they are photographed: two, or as many as asked."""
    paper = "letter" if request.args.get("paper") == "letter" else "a4"
    asked = request.args.get("sheets", 2, type=int)
    numbers = tuple(range(1, min(max(asked, 1), SHEETS) + 1))
    return Response(calibration_sheet_pdf(numbers, paper, reader=reader()),
                    mimetype="application/pdf", headers={
        "Content-Disposition": 'attachment; filename="calibration-sheet.pdf"'})
