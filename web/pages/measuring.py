"""Counted and measured by photograph: buttons on the tray, strips by the sheet, two places."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from flask import Blueprint, Response, redirect, render_template, request, url_for

from labels.arrow_card_on_paper import arrow_card_pdf
from labels.tray_on_paper import tray_pdf
from stash.errors import Conflict, InvalidInput, StashError
from stash.model import Bin, Notion, NotionKind
from stash.quantity import Quantity
from stash.workroom import bins, labels, places
from stash.workroom.measuring import (
    Pour,
    SeenBin,
    SeenColour,
    SizeCount,
    apart_in,
    between,
    colours_along,
    colours_in,
    count_pour,
    count_seen,
    counted_in,
    light_said,
    matched,
    measure_strips,
    read_pixel,
    receive_seen,
    shown_jpeg,
)
from stash.workroom.seen_colours import keep_seen_colour
from web import forms
from web.bin_kinds import kind_name
from web.colour_form import said_colours
from web.config import PHOTO_BYTES
from web.error_pages import status_of
from web.formatting import button, length, say, small_error, tell
from web.jobs import Job, jobs, kept
from web.request_stash import reader, stash
from web.texts import _

pages = Blueprint("measuring", __name__, url_prefix="/measure")

COUNTED = (NotionKind.BUTTON, NotionKind.SNAP, NotionKind.HOOK)
ZIPS = (NotionKind.ZIP,)
STRIPS = (NotionKind.ELASTIC, NotionKind.BINDING, NotionKind.TAPE, NotionKind.CORD)
SHEETS = {"tray": tray_pdf, "arrow": arrow_card_pdf}


@dataclass(frozen=True)
class PhotoQuestion:
    """What a photograph was sent for, and the photograph itself, for what is tapped on it."""

    what: str
    data: bytes
    ruler_mm: float | None
    code: str = ""


@dataclass(frozen=True)
class PhotoAnswer:
    """What was found, and the picture as the page shows it (width and height as measured).

    ``colours`` are those of the strips, in their order.
    """

    found: Any
    picture: bytes
    size_px: tuple[int, int]
    colours: tuple[SeenColour | None, ...] = ()


@pages.get("/")
def index():
    """Choose what to measure; the sheets to print."""
    code = request.args.get("code", "")
    held = bins.held(stash(), code) if code else None
    return render_template("measuring/index.html", held=held, error=None, typed=None)


@pages.get("/print/<what>.pdf")
def sheet(what: str):
    """The tray or the arrow card, to print."""
    if what not in SHEETS:
        raise InvalidInput("no_such_paper", papers=tuple(SHEETS), typed=what)
    pdf = SHEETS[what](request.args.get("paper", "a4"), reader=reader())
    return Response(pdf, mimetype="application/pdf")


@pages.post("/")
def begin():
    """Measure one photograph in the background."""
    request.max_content_length = PHOTO_BYTES
    try:
        sent = request.files.get("photo")
        if sent is None or not sent.filename:
            raise InvalidInput("choose_a_photograph", field="photo")
        what = request.form.get("what", "buttons")
        question = PhotoQuestion(
            what, forms.content_of(sent), forms.maybe_length("ruler", Quantity.RULER),
            forms.text("code"))
    except StashError as error:
        return render_template(
            "measuring/index.html", held=None, error=error, typed=request.form), status_of(error)
    job = jobs().start(
        Job(title=_TITLES[what](), question=question, answered_at="measuring.show"),
        lambda _job: _answered(question))
    return redirect(url_for("measuring.show", key=job.key), 303)


_TITLES: dict[str, Callable[[], str]] = {
    "buttons": lambda: _("Counted by photograph"),
    "strips": lambda: _("Measured by photograph"),
    "places": lambda: _("Tap on the photograph"),
    "colours": lambda: _("Colour by photograph"),
}


def _answered(question: PhotoQuestion) -> PhotoAnswer:
    picture, size = shown_jpeg(question.data)
    found: Any = None
    colours: tuple[SeenColour | None, ...] = ()
    if question.what == "buttons":
        found = count_pour(question.data, ruler_mm=question.ruler_mm)
    elif question.what == "strips":
        found = measure_strips(question.data, ruler_mm=question.ruler_mm)
        seen = colours_along(question.data, [strip.line_px for strip in found.strips])
        colours = tuple(one if one.light.known else None for one in seen)
    return PhotoAnswer(found, picture, size, colours)


def _found(key: str) -> Job:
    return kept(key, PhotoQuestion)


@pages.get("/<key>")
def show(key: str):
    """How it stands; then what was found, drawn over the photograph."""
    return _page(_found(key))


def _page(job: Job, error: StashError | None = None):
    status = status_of(error) if error else 422 if job.error else 200
    answer: PhotoAnswer | None = job.result
    kinds = STRIPS if job.question.what == "strips" else COUNTED
    return render_template(
        "measuring/show.html", job=job, answer=answer, what=job.question.what, error=error,
        code=job.question.code, kinds=[(kind.value, kind_name(kind)) for kind in kinds],
        places=places.names(stash()), name=_name(answer),
        typed=request.form if error else None,
    ), status


def _name(answer: PhotoAnswer | None) -> str:
    """A name to start from: what it is and how large."""
    if answer and isinstance(answer.found, Pour) and answer.found.sizes:
        return _("Buttons, %(size)s", size=button(answer.found.sizes[0].diameter_mm))
    return ""


@pages.get("/<key>/picture.jpg")
def picture(key: str):
    """The photograph, as the page shows it."""
    return Response(_answer_of(key).picture, mimetype="image/jpeg")


def _answer_of(key: str) -> PhotoAnswer:
    answer = _found(key).result
    if answer is None:
        raise Conflict("tracing_not_ended")
    return answer


@pages.get("/<key>/between")
def tapped(key: str):
    """What lies between two tapped places; for the script."""
    question = _found(key).question
    one, other = (read_pixel(request.args.get(name, "")) for name in ("one", "other"))
    found = between(question.data, one, other, ruler_mm=question.ruler_mm)
    return {
        "length_mm": found.length.value, "error_mm": found.length.error,
        "said": _("%(length)s, give or take %(error)s", length=length(found.length.value),
                  error=small_error(found.length.error)),
        "ends_px": found.ends_px,
    }


@pages.get("/<key>/colours")
def coloured(key: str):
    """The colour at a tapped place, and how it differs from that at another; for the script."""
    data = _found(key).question.data
    spots = [read_pixel(request.args.get("one", ""))]
    if request.args.get("other"):
        spots.append(read_pixel(request.args["other"]))
    found = colours_in(data, spots)
    first = found[0]
    apart, error = apart_in(data, *spots) if len(spots) == 2 else (None, None)
    return {
        "colours": [{"colour": one.colour, "name": said_colours((one.colour,))} for one in found],
        "error_de00": first.error_de00, "light": first.light.value,
        "light_said": say(light_said(first)),
        "like": url_for("shopping.like", by_colour=1, colour=first.colour,
                        within=f"{first.error_de00:.0f}"),
        "apart_de00": apart, "apart_error_de00": error,
        "apart_said": "" if apart is None or error is None else _(
            "The two colours differ by %(apart).0f, give or take %(error).0f (CIEDE2000).",
            apart=apart, error=error),
        "match_said": "" if apart is None or error is None else say(matched(apart, error)),
    }


@pages.post("/<key>/colour")
def keep_colour(key: str):
    """The colour at the tapped place is that of a cut or of what is in a bin: kept there."""
    job = _found(key)
    try:
        if not forms.text("at"):
            raise InvalidInput("tap_the_thing_first", field="at")
        seen = colours_in(job.question.data, [read_pixel(forms.text("at"))])[0]
        code = labels.labelled(stash(), forms.needed("code", _("Code of its label"))).code
        event = keep_seen_colour(
            stash(), code, seen, forms.token(), replace_surer=forms.ticked("replace"))
    except StashError as error:
        return _page(job, error)
    tell(_("Its colour is on record."), undo=event.id)
    return redirect(url_for("scanned.open", code=code), 303)


@pages.post("/<key>/length")
def keep_length(key: str):
    """The length between two tapped places is that of a zip: put on record as a new bin."""
    job = _found(key)
    question = job.question
    try:
        if not forms.text("one"):
            raise InvalidInput("tap_two_places_first", field="one")
        one, other = read_pixel(forms.text("one")), read_pixel(forms.text("other"))
        found = between(question.data, one, other, ruler_mm=question.ruler_mm).length
        held = Bin(code="", amount=float(forms.count("there", _("How many"), 1, 1000)),
                   place=forms.text("place") or None,
                   notion=replace(_notion(ZIPS), size_mm=round(found.value, 1)))
        event, codes = receive_seen(
            stash(), [SeenBin(size_error_mm=found.error, held=held)], token=forms.token())
    except StashError as error:
        return _page(job, error)
    tell(_("On record as %(codes)s.", codes=", ".join(codes)), undo=event.id)
    return redirect(url_for("scanned.open", code=codes[0]), 303)


@pages.post("/<key>/keep")
def keep(key: str):
    """Put on record what was found, with the asks as they were answered."""
    job, answer = _found(key), _answer_of(key)
    try:
        if job.question.code:
            figure = counted_in(answer.found, _answers(answer.found))
            event = count_seen(stash(), job.question.code, figure, forms.token(),
                               replace=forms.ticked("replace"))
            tell(_("There now, counted by photograph: %(n)d.", n=int(figure.value)),
                 undo=event.id)
            return redirect(url_for("scanned.open", code=job.question.code), 303)
        wanted = _strip_bins(answer) if job.question.what == "strips" else _pour_bins(answer.found)
        event, codes = receive_seen(stash(), wanted, token=forms.token())
    except StashError as error:
        return _page(job, error)
    tell(_("On record as %(codes)s.", codes=", ".join(codes)), undo=event.id)
    if request.form.get("then") == "label":
        return redirect(url_for("labels.show", code=list(codes)), 303)
    return redirect(url_for("scanned.open", code=codes[0]), 303)


def _answers(pour: Pour) -> list[int]:
    """How many lie at each place that was asked about."""
    return [
        forms.count(f"ask-{n}", _("How many lie there"), 0, 200) for n, _ask in enumerate(pour.asks)
    ]


def _pour_bins(pour: Pour) -> list[SeenBin]:
    """A bin for each size; what was asked about goes with the size it looked like."""
    notion, place = _notion(COUNTED), forms.text("place") or None
    sizes, answers = list(pour.sizes), _answers(pour)
    if not sizes and not sum(answers):
        raise InvalidInput("nothing_was_counted", field="photo")
    if not sizes:
        typical = pour.items[0] if pour.items else None
        sizes = [SizeCount(diameter_mm=typical.diameter_mm if typical else 0.0, error_mm=1.0,
                           count=0)]
    counts = [size.count for size in sizes]
    for ask, more in zip(pour.asks, answers, strict=True):
        counts[_size_of(pour, ask.item, sizes)] += more
    return [
        SeenBin(
            error=float(len(pour.asks)), size_error_mm=size.error_mm, colour=pour.colour,
            held=Bin(code="", amount=float(count), place=place, notion=replace(
                notion, size_mm=round(size.diameter_mm, 1) or None,
                name=notion.name if len(sizes) == 1
                else f"{notion.name}, {button(size.diameter_mm)}")))
        for size, count in zip(sizes, counts, strict=True)
    ]


def _size_of(pour: Pour, item: int | None, sizes: list[SizeCount]) -> int:
    if item is None:
        return 0
    across = pour.items[item].diameter_mm
    return min(range(len(sizes)), key=lambda n: abs(sizes[n].diameter_mm - across))


def _strip_bins(answer: PhotoAnswer) -> list[SeenBin]:
    """A bin for each strip that is ticked."""
    notion, place = _notion(STRIPS), forms.text("place") or None
    found = [
        SeenBin(
            error=strip.length_error_mm, size_error_mm=strip.width_error_mm,
            colour=answer.colours[n], held=Bin(
                code="", amount=round(strip.length_mm), place=place,
                notion=replace(notion, size_mm=round(strip.width_mm, 1))))
        for n, strip in enumerate(answer.found.strips) if forms.ticked(f"use-{n}")
    ]
    if not found:
        raise InvalidInput("tick_a_strip", field="use-0")
    return found


def _notion(kinds: tuple[NotionKind, ...]) -> Notion:
    kind = request.form.get("kind", kinds[0].value)
    if kind not in {one.value for one in kinds}:
        raise InvalidInput("choose_what_is_in_bin", field="kind")
    return Notion(kind=NotionKind(kind), name=forms.needed("name", _("Name")))
