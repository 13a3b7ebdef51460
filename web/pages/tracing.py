"""Paper pieces and remnants traced from photographs, corrected by dragging, then kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from flask import Blueprint, Response, redirect, render_template, request, url_for

from stash.errors import Conflict, InvalidInput, StashError
from stash.fact import Fact
from stash.model import Outline, Piece
from stash.model.outline import Point, SelvedgeLine
from stash.quantity import Quantity
from stash.workroom import cuts, patterns
from stash.workroom.grain import GrainBy, edges_along
from stash.workroom.patterns import checked_ring
from stash.workroom.tracing import Backdrop, PaperMarks, trace_over, trace_remnant, with_marks
from web import forms
from web.config import PHOTO_BYTES
from web.dragged import dragged_ring, points_text
from web.error_pages import status_of
from web.formatting import tell
from web.jobs import Job, jobs, kept
from web.pages import patterns as patterns_page
from web.request_stash import stash
from web.texts import _

pages = Blueprint("tracing", __name__, url_prefix="/tracing")

SAME_EDGE_MM = 8.0


@dataclass(frozen=True, kw_only=True)
class EdgeAlong:
    """A straight edge along the grain; ``taken`` for a selvedge until it is corrected."""

    line_mm: SelvedgeLine
    length_mm: float
    taken: bool


@dataclass(frozen=True, kw_only=True)
class TracedShape:
    """One traced shape as the correction page shows it; ``error_mm`` is what it may be out.

    ``drawn`` are the notches and the grain arrow found on the paper, offered over the photograph.
    """

    ring_mm: tuple[Point, ...]
    error_mm: float
    holes_mm: tuple[tuple[Point, ...], ...] = ()
    edges: tuple[EdgeAlong, ...] = ()
    backdrop: Backdrop | None = None
    drawn: PaperMarks | None = None

    @property
    def points(self) -> str:
        """The ring as it is typed: a point a line, in mm."""
        return points_text(self.ring_mm)


@dataclass(frozen=True, kw_only=True)
class TracedPhotos:
    """The shapes of some photographs, and facts on what was left out."""

    shapes: tuple[TracedShape, ...]
    pieces: tuple[Piece, ...] = ()
    notes: tuple[Fact, ...] = ()
    code: str = ""
    grain: str = ""


@dataclass(frozen=True)
class TracingQuestion:
    """What is kept of a tracing once begun: the cut it is for, if any, and no photographs."""

    code: str = ""


@dataclass(frozen=True)
class Photographs:
    """What a tracing works on: photographs, and what the printed ruler truly measures."""

    contents: tuple[bytes, ...]
    ruler_mm: float | None


def _photos() -> Photographs:
    request.max_content_length = PHOTO_BYTES
    sent = [forms.content_of(photo) for photo in request.files.getlist("photo") if photo.filename]
    if not sent:
        raise InvalidInput("choose_a_photograph", field="photo")
    return Photographs(tuple(sent), forms.maybe_length("ruler", Quantity.RULER))


@pages.post("/")
def begin():
    """Trace the paper pieces in some photographs, in the background."""
    try:
        photos = _photos()
    except StashError as error:
        return patterns_page.page(error)

    def work(job: Job) -> TracedPhotos:
        found = trace_over(photos.contents, ruler_mm=photos.ruler_mm, stop=job.should_stop)
        reading = found.reading
        shapes = tuple(
            TracedShape(ring_mm=piece.outline_mm, error_mm=error, backdrop=under, drawn=drawn)
            for piece, error, under, drawn in zip(
                reading.pieces, found.errors_mm, found.under, found.drawn, strict=True))
        return TracedPhotos(shapes=shapes, pieces=reading.pieces, notes=tuple(reading.notes))

    return _start(_("Tracing"), TracingQuestion(), work)


@pages.route("/remnant/<code>", methods=["GET", "POST"])
def remnant(code: str):
    """Trace what is left of a cut from a photograph of it on a contrasting floor."""
    cut = cuts.cut(stash(), code)
    if request.method == "GET":
        return render_template("tracing/remnant.html", cut=cut, error=None, typed=None)
    try:
        photos = _photos()
    except StashError as error:
        return render_template(
            "tracing/remnant.html", cut=cut, error=error, typed=request.form
        ), status_of(error)

    def work(_job: Job) -> TracedPhotos:
        found = trace_remnant(photos.contents, ruler_mm=photos.ruler_mm)
        edges = edges_along(found.outline) if found.grain == GrainBy.ARROW else ()
        shape = TracedShape(
            ring_mm=found.outline.ring_mm, error_mm=found.error_mm,
            holes_mm=found.outline.holes_mm, backdrop=found.backdrop, edges=tuple(
                EdgeAlong(line_mm=line, length_mm=length, taken=_among(line, found.selvedges))
                for line, length in edges))
        return TracedPhotos(shapes=(shape,), code=cut.code, grain=found.grain)

    return _start(_("Tracing %(name)s", name=cut.cloth.name), TracingQuestion(cut.code), work)


def _among(line: SelvedgeLine, lines: Iterable[SelvedgeLine]) -> bool:
    """Whether one of the lines runs where this one does."""
    def height(one: SelvedgeLine) -> float:
        return (one[0][1] + one[1][1]) / 2

    return any(abs(height(line) - height(other)) < SAME_EDGE_MM for other in lines)


def _start(title: str, question: TracingQuestion, work: Callable[[Job], TracedPhotos]):
    job = jobs().start(Job(title=title, question=question, answered_at="tracing.show"), work)
    return redirect(url_for("tracing.show", key=job.key), 303)


def _found(key: str) -> Job:
    return kept(key, TracingQuestion)


@pages.get("/<key>")
def show(key: str):
    """How the tracing stands; then its shapes, to be named and corrected."""
    return _page(_found(key))


def _page(job: Job, error: StashError | None = None):
    status = status_of(error) if error else 422 if job.error else 200
    return render_template(
        "tracing/show.html", job=job, traced=job.result, error=error,
        typed=request.form if error else None,
    ), status


@pages.get("/<key>/backdrop-<int:n>.jpg")
def backdrop(key: str, n: int):
    """The photographs from above under one shape, for correcting the outline over them."""
    traced: TracedPhotos | None = _found(key).result
    shapes = traced.shapes if traced else ()
    under = shapes[n].backdrop if n < len(shapes) else None
    if under is None:
        raise Conflict("tracing_not_ended")
    return Response(under.jpeg, mimetype="image/jpeg")


@pages.post("/<key>/keep")
def keep(key: str):
    """Keep the corrected shapes: as a pattern, or as what is left of the cut."""
    job = _found(key)
    traced: TracedPhotos = job.result
    if traced is None:
        raise Conflict("tracing_not_ended")
    try:
        if traced.code:
            outline = Outline(_ring(0, traced), traced.shapes[0].holes_mm)
            error_mm = traced.shapes[0].error_mm
            by = GrainBy(traced.grain)
            selvedges = tuple(
                edge.line_mm for n, edge in enumerate(traced.shapes[0].edges)
                if forms.ticked(f"selvedge-{n}"))
            done = cuts.traced(
                stash(), traced.code, outline, error_mm, forms.token(), grain=by,
                selvedges_mm=selvedges, replace=forms.ticked("replace"))
            tell(_("The record now has the traced outline."), undo=done.event.id)
            if by.presumed:
                return redirect(url_for("cuts.grain", code=traced.code), 303)
            return redirect(url_for("scanned.open", code=traced.code), 303)
        name = forms.needed("name", _("The name of the pattern"))
        pieces = tuple(
            _piece(n, piece, traced) for n, piece in enumerate(traced.pieces)
            if forms.ticked(f"use-{n}"))
        if not pieces:
            raise InvalidInput("keep_a_piece", field="use-0")
        under = [shape.backdrop.jpeg for shape in traced.shapes if shape.backdrop]
        event, _kept = patterns.keep(
            stash(), name, pieces, _("traced"), forms.token(), photographs=under)
    except StashError as error:
        return _page(job, error)
    tell(_("The pattern “%(name)s” is saved.", name=name), undo=event.id)
    return redirect(url_for("patterns.show", name=name), 303)


def _piece(n: int, piece: Piece, traced: TracedPhotos) -> Piece:
    quantity = forms.count(f"quantity-{n}", _("How many"), 1, 200)
    mirrored = forms.ticked(f"mirrored-{n}")
    if mirrored and quantity % 2:
        raise InvalidInput("pairs_are_even", field=f"quantity-{n}")
    named = replace(
        piece, name=forms.needed(f"piece-{n}", _("The name of a piece")), quantity=quantity,
        mirrored_pair=mirrored)
    return _marked(n, named, traced)


def _ring(n: int, traced: TracedPhotos) -> tuple[Point, ...]:
    """The corrected ring, or the traced one, exact, where nothing was dragged or typed."""
    shown = traced.shapes[n].ring_mm
    dragged = dragged_ring(n, shown)
    return shown if dragged is None else checked_ring(dragged, _("The outline"))


def _marked(n: int, piece: Piece, traced: TracedPhotos) -> Piece:
    """The piece with its outline, the notches that were kept, and its grain along x."""
    drawn = traced.shapes[n].drawn or PaperMarks()
    kept = [notch for k, notch in enumerate(drawn.notches) if forms.ticked(f"notch-{n}-{k}")]
    runs = forms.text(f"grain-{n}")
    grain_deg = drawn.grain.turn_deg if runs == "arrow" and drawn.grain else 0.0
    return with_marks(piece, _ring(n, traced), kept, 90.0 if runs == "across" else grain_deg)
