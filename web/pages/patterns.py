"""Her own patterns: typed in, imported from a file, traced; each kept in every version."""

from __future__ import annotations

from flask import Blueprint, Response, redirect, render_template, request, url_for
from markupsafe import Markup

from labels.calibration_on_paper import calibration_sheet_pdf
from stash.errors import InvalidInput, NotFound, StashError
from stash.model import Construction, Part, Piece, Role
from stash.quantity import Quantity, read_length
from stash.sentences import say
from stash.workroom import altering, pattern_files, pattern_list, patterns, people
from stash.workroom.patterns import PieceChange, TypedPiece, read_pattern, typed_piece
from web import forms, pattern_form
from web.bin_kinds import kinds
from web.config import PHOTO_BYTES
from web.dragged import dragged_ring
from web.error_pages import status_of
from web.formatting import tell
from web.pages.drafts import pattern_file, saved_file
from web.pattern_form import change_of
from web.request_stash import reader, stash, system
from web.texts import _

pages = Blueprint("patterns", __name__, url_prefix="/patterns")

ROWS = 8
SHEETS = 8
MORE_SIZES = 4
POINTED = {
    "fold": "the fold of a half: open it out there",
    "grain": "an edge along which the grain runs: turn the piece",
    "lengthen": "where it may be lengthened or shortened",
    "notch": "a notch on the edge",
    "unnotch": "a notch to take off",
    "mark": "a place to mark",
}


@pages.get("/")
def index():
    """Every pattern of her own, and the ways one comes in."""
    return page()


def page(error: StashError | None = None):
    """The list and its forms; with a refusal, what was typed stays."""
    return render_template(
        "patterns/index.html", kept=pattern_list.everything(stash()), error=error,
        rows=range(ROWS), typed=request.form if error else None,
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
        return page(error)


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
        return page(error)


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
        typed=request.form if error and request.endpoint == "patterns.correct" else None,
        others=[("", _("none"))] + [
            (k.name, k.name) for k in pattern_list.everything(stash()) if k.name != kept.name],
        dragged=request.form if error and request.endpoint == "patterns.outline" else {},
        more_sizes=MORE_SIZES,
        pointed_at=what if (what := request.values.get("what")) in POINTED else "fold",
        change=pattern_form,
        hidden="hide" in request.form if error else request.args.get("photograph") == "hidden",
        everyone=[p.name for p in people.everyone(stash())], kinds=kinds(),
        cloths=[("", _("any"))] + [(c.value, _(c.value)) for c in Construction],
        parts=[(p.value, _(p.value)) for p in Part], roles=[(r.value, _(r.value)) for r in Role],
        drawings=[Markup(svg) for svg in pattern_files.preview(kept.pattern, kept.name, reader())],
        pointed=[(key, _(text)) for key, text in POINTED.items()],
        views=[(pattern_files.PointingView(p), _outline_view(p)) for p in kept.pattern.pieces],
        newest=kept.version == versions[-1].version,
        again=[(p.name, p.name) for p in people.everyone(stash())]
        if altering.can_be_drawn_again(kept.pattern) else [],
    ), status_of(error) if error else 200


@pages.post("/own/<path:name>/correct")
def correct(name: str):
    """What a pattern is, set right: a new version, and the one before stays."""
    try:
        kept = patterns.kept(stash(), name).pattern
        event, _new = patterns.correct(stash(), name, change_of(kept), forms.token())
        tell(_("The pattern “%(name)s” is saved.", name=name), undo=event.id)
        return redirect(url_for("patterns.show", name=name), 303)
    except StashError as error:
        return _shown(name, error)


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
            change = PieceChange(lengthen_at_mm=round(down, 1))
        elif what in POINTED:
            change = PieceChange(**{f"{what}_at_mm": (down, across)})
        else:
            raise InvalidInput("point_at_what", field="what")
        return _piece_corrected(name, row, view.piece, change)
    except StashError as error:
        return _shown(name, error)


@pages.post("/own/<path:name>/outline-<int:row>")
def outline(name: str, row: int):
    """A piece's outline as its points were dragged: a new version."""
    try:
        piece = _view(name, row).piece
        ring = dragged_ring(row, patterns.outline_edited(piece))
        if ring is None:
            raise InvalidInput("drag_a_point_first", field=f"points-{row}")
        return _piece_corrected(name, row, piece, PieceChange(outline_mm=ring))
    except StashError as error:
        return _shown(name, error)


def _piece_corrected(name: str, row: int, piece: Piece, change: PieceChange):
    """A new version; the page comes back to that piece, its photograph shown as it was."""
    event, _new = patterns.correct(
        stash(), name, patterns.PatternChange(pieces=((piece.name, change),)), forms.token())
    tell(_("The pattern “%(name)s” is saved.", name=name), undo=event.id)
    hidden = "hidden" if forms.ticked("hide") else None
    return redirect(url_for(
        "patterns.show", name=name, photograph=hidden, what=forms.text("what") or "outline",
        _anchor=f"piece-{row}"), 303)


@pages.get("/own/<path:name>/photograph-<number>.jpg")
def photograph(name: str, number: str):
    """The photograph under a traced piece."""
    jpeg = patterns.photograph(stash(), name, number, request.args.get("version", type=int))
    return Response(jpeg, mimetype="image/jpeg",
                    headers={"Cache-Control": "private, max-age=86400"})


def _outline_view(piece: Piece) -> pattern_files.OutlineView:
    return pattern_files.OutlineView(
        patterns.outline_edited(piece), piece.under, piece.notches_mm)


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


@pages.get("/own/<path:name>/sizes.dxf")
def sizes(name: str):
    """Several patterns as the sizes of one, in one exchange file: a block a piece and size."""
    try:
        rows = [(request.args.get("size-own", "").strip(), name)] + [
            (request.args.get(f"size-{row}", "").strip(), whose)
            for row in range(MORE_SIZES) if (whose := request.args.get(f"pattern-{row}"))]
        if len(rows) < 2:
            raise InvalidInput("choose_more_sizes", field="pattern-0")
        graded = [(size, patterns.kept(stash(), whose).pattern) for size, whose in rows]
        content = pattern_files.sizes_content(graded, name, reader())
    except StashError as error:
        return _shown(name, error)
    return saved_file(content, name, "dxf")


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
