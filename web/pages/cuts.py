"""The page of one cut: what is left, and recording use in two taps."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import InvalidInput, NotEnough, StashError
from stash.model import Outline
from stash.store.cuts import CutCard
from stash.units import YARD_MM, System, parse_length
from web import forms
from web.cut_form import cloth_from_form, cut_from_form, suggestions
from web.drawing.rule import extent
from web.errors import status_of
from web.happening import lines
from web.opened import stash, system
from web.showing import length, tell
from web.texts import _

pages = Blueprint("cuts", __name__, url_prefix="/cuts")

QUICK = {System.METRIC: ("10 cm", "20 cm", "50 cm", "1 m", "1.2 m", "1.5 m"),
         System.INCHES: ("1/8 yd", "1/4 yd", "1/2 yd", "1 yd", "1 1/4 yd", "1 1/2 yd")}


def page(code: str, *, error: StashError | None = None, measure: bool = False):
    """The page a scan opens; with a refusal, what was typed stays."""
    card = stash().cuts.card(code)
    cut = card.cut
    body = render_template(
        "cuts/show.html", cut=cut, code=cut.code, gone=card.gone, holds=card.holds, error=error,
        typed=request.form if error else None, measure=measure,
        extent=extent([cut.length_mm], YARD_MM if system() is System.INCHES else 1000.0),
        quick=[q for q in QUICK[system()] if parse_length(q) <= cut.length_mm],
        history=lines(code), photos=stash().photos.of(code), places=stash().places.names(),
    )
    return body, status_of(error) if error else 200


def _record(code: str, write, said):
    """Do ``write``, say what changed with its Undo, and go back to the cut's page."""
    try:
        event = write()
    except StashError as error:
        return page(code, error=error, measure=isinstance(error, NotEnough))
    tell(said(stash().cuts.card(code)), undo=event.id)
    return redirect(url_for("scanned.open", code=code), 303)


def _left(card: CutCard) -> str:
    if card.gone:
        return _("Nothing is left.")
    return _("%(left)s is left.", left=length(card.cut.length_mm))


@pages.post("/<code>/cut-off")
def cut_off(code: str):
    """Record that a length was cut off."""
    amount = []

    def write():
        quick = request.form.get("quick")
        mm = parse_length(quick, unit="cm") if quick else forms.length("length")
        amount.append(mm)
        return stash().cuts.cut_off(
            code, mm, token=forms.token(), despite_hold=forms.ticked("despite_hold")
        )

    return _record(code, write, lambda card: _(
        "Cut off %(off)s. %(left)s", off=length(amount[0]), left=_left(card)))


@pages.post("/<code>/remains")
def remains(code: str):
    """Record what is left, whatever was used."""

    def write():
        mm = 0.0 if forms.ticked("nothing") else forms.length("left")
        return stash().cuts.remains(
            code, mm, token=forms.token(), despite_hold=forms.ticked("despite_hold")
        )

    return _record(code, write, _left)


@pages.post("/<code>/re-measure")
def remeasure(code: str):
    """Put the measured truth in the place of the record."""

    def write():
        long, wide = forms.length("true_length"), forms.length("true_width")
        outline = _cornered(
            long, wide, forms.maybe_length("corner_length"), forms.maybe_length("corner_width")
        )
        return stash().cuts.remeasure(code, outline, token=forms.token())

    return _record(code, write, lambda card: _(
        "The record now says %(long)s by %(wide)s.",
        long=length(card.cut.length_mm), wide=length(card.cut.width_mm)))


def _cornered(long: float, wide: float, off_long: float | None, off_wide: float | None) -> Outline:
    if not off_long or not off_wide:
        return Outline.rectangle(long, wide)
    if off_long >= long or off_wide >= wide:
        raise InvalidInput(
            _("The missing corner must be smaller than the cut."), field="corner_length")
    return Outline((
        (0, 0), (long, 0), (long, wide - off_wide), (long - off_long, wide - off_wide),
        (long - off_long, wide), (0, wide),
    ))


@pages.post("/<code>/wash")
def wash(code: str):
    """Record a wash, with its measures or with the shrinkage on record."""

    def write():
        long, wide = forms.maybe_length("washed_length"), forms.maybe_length("washed_width")
        cut = stash().cuts.get(code)
        outline = None
        if long or wide:
            after = cut.outline_washed
            outline = Outline.rectangle(long or after.length_mm, wide or after.width_mm)
        return stash().cuts.wash(code, token=forms.token(), outline=outline)

    return _record(code, write, lambda card: _("Washed. %(left)s", left=_left(card)))


@pages.post("/<code>/move")
def move(code: str):
    """Record where it lies now."""
    return _record(
        code,
        lambda: stash().cuts.move(code, forms.needed("place", _("Place")), token=forms.token()),
        lambda card: _("It now lies in %(place)s.", place=card.cut.place),
    )


@pages.post("/<code>/leave")
def leave(code: str):
    """Record that it was given or thrown away."""

    how = stash().cuts.gift if request.form.get("how") == "gift" else stash().cuts.discard
    return _record(code, lambda: how(
        code, token=forms.token(), despite_hold=forms.ticked("despite_hold")),
        lambda card: _("It has left the stash."))


@pages.route("/new", methods=["GET", "POST"])
def new():
    """Add a cut that has no label yet; it gets a code of its own."""
    error = None
    if request.method == "POST":
        try:
            event = stash().cuts.receive(cut_from_form(), token=forms.token())
            tell(_("Recorded. Its code is %(code)s.", code=event.code), undo=event.id)
            return redirect(url_for("scanned.open", code=event.code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "cuts/new.html", error=error, typed=request.form if error else None, **suggestions(),
    ), status_of(error) if error else 200


@pages.route("/<code>/facts", methods=["GET", "POST"])
def edit(code: str):
    """Correct what is on record about the cloth."""
    error, cut = None, stash().cuts.get(code)
    if request.method == "POST":
        try:
            with stash().act(forms.token()):
                event = stash().cloths.correct(cut.code, cloth_from_form(cut.cloth))
                if (keep := forms.text("keep_for") or None) != cut.keep_for:
                    stash().cuts.correct(cut.code, keep_for=keep)
            tell(_("Corrected."), undo=event.id)
            return redirect(url_for("scanned.open", code=code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "cuts/edit.html", cut=cut, error=error, typed=request.form if error else None,
        **suggestions(),
    ), status_of(error) if error else 200
