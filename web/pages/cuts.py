"""The page of one cut: what is left, and recording use in two taps."""

from __future__ import annotations

from collections.abc import Sequence

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import NotEnough, StashError
from stash.quantity import Quantity
from stash.sentences import named
from stash.units import YARD_MM, System, parse_length
from stash.workroom import cuts, explaining, origins, photos, places
from stash.workroom.as_cut import cut_across, cut_along
from stash.workroom.cuts import CutCard, End, LongSide, Pieces, Use
from stash.workroom.grain import (
    GrainBy,
    StraightEdge,
    grain_is_presumed,
    straight_edges,
    turn_grain,
)
from stash.workroom.plans import unmade
from stash.workroom.questions.strayed import strayed_from
from stash.workroom.settings import preferences
from web import forms
from web.cut_form import (
    bite,
    bites_from_form,
    cloth_from_form,
    cut_from_form,
    edges,
    ends,
    ring_of,
    suggestions,
)
from web.drawing.rule import extent
from web.error_pages import status_of
from web.event_lines import lines
from web.formatting import length, tell, tell_saved
from web.label_lookup import payload_of
from web.request_stash import reader, stash, system
from web.texts import _

pages = Blueprint("cuts", __name__, url_prefix="/cuts")

QUICK = {System.METRIC: ("10 cm", "20 cm", "50 cm", "1 m", "1.2 m", "1.5 m"),
         System.INCHES: ("1/8 yd", "1/4 yd", "1/2 yd", "1 yd", "1 1/4 yd", "1 1/2 yd")}


def page(code: str, *, error: StashError | None = None, measure: bool = False):
    """The page a scan opens; with a refusal, what was typed stays."""
    card = cuts.card(stash(), code)
    cut = card.cut
    body = render_template(
        "cuts/show.html", cut=cut, code=cut.code, gone=card.gone, holds=card.holds, error=error,
        typed=request.form if error else None, measure=measure,
        extent=extent([cut.length_mm], YARD_MM if system() is System.INCHES else 1000.0),
        quick=[q for q in QUICK[system()] if parse_length(q) <= cut.length_mm],
        known=origins.said_of(origins.of_cut(stash(), cut))
        + origins.said_of_colour(stash(), cut),
        strayed=strayed_from(cut, card.holds),
        account=explaining.account(stash(), code), lent=card.lent, ends=ends(),
        presumed_grain=grain_is_presumed(stash(), card.cut.code), edges=edges(),
        margin_mm=preferences(stash()).selvedge_mm,
        history=lines(code), photos=photos.of(stash(), code), places=places.names(stash()),
        plans=[(name, name) for name in unmade(stash())],
    )
    return body, status_of(error) if error else 200


def _record(code: str, act, said):
    """Do ``act``, say what changed with its Undo, and go back to the cut's page."""
    try:
        done = act()
    except StashError as error:
        return page(code, error=error, measure=isinstance(error, NotEnough))
    tell(said(done.now), undo=done.event.id)
    if forms.text("back") == "as-cut":
        return redirect(url_for("cuts.as_cut", code=code), 303)
    return redirect(url_for("scanned.open", code=code), 303)


def _unchanged(code: str):
    tell(_("Nothing was changed."))
    return redirect(url_for("scanned.open", code=code), 303)


def _left(card: CutCard) -> str:
    if card.gone:
        return _("Nothing is left.")
    return _("%(left)s is left.", left=length(card.cut.length_mm))


@pages.post("/<code>/cut-off")
def cut_off(code: str):
    """Record that a length was cut off."""
    amount = []

    def act():
        if forms.ticked("share"):
            share = forms.number("share", _("How much"), 0.01, 0.99)
            amount.append(cuts.cut(stash(), code).length_mm * share)
            return cuts.cut_share(stash(), code, share, forms.token(), use=_use())
        quick = request.form.get("quick")
        amount.append(
            parse_length(quick) if quick else forms.length("length", Quantity.CUT_LENGTH))
        return cuts.cut_off(
            stash(), code, amount[0], forms.token(), use=_use())

    return _record(code, act, lambda card: _(
        "Cut off %(off)s. %(left)s", off=length(amount[0]), left=_left(card)))


@pages.post("/<code>/part")
def part(code: str):
    """Record that a strip, or some equal pieces, were cut off."""

    def act():
        long, wide = (
            forms.maybe_length("part_length", Quantity.CUT_LENGTH),
            forms.length("part_width", Quantity.WIDTH))
        count = forms.count("count", _("How many"), 1, 500) if forms.text("count") else 1
        if long is None:
            return cuts.cut_strip(stash(), code, None, count * wide, forms.token(), use=_use())
        pieces = Pieces(count=count, length_mm=long, width_mm=wide)
        return cuts.cut_pieces(stash(), code, pieces, forms.token(), use=_use())

    return _record(code, act, lambda card: _("Cut off. %(left)s", left=_left(card)))


@pages.post("/<code>/missing")
def missing(code: str):
    """Record a part that is missing, or that nothing can be laid on."""
    return _record(
        code, lambda: cuts.flaw(stash(), code, bites_from_form() or (bite(),), forms.token()),
        lambda card: _("Recorded: the drawing shows it."))


@pages.post("/<code>/square")
def square(code: str):
    """Record that the ragged ends were cut away."""
    return _record(code, lambda: cuts.square_off(stash(), code, forms.token()), lambda card: _(
        "Squared off. %(left)s", left=_left(card)))


@pages.route("/<code>/as-cut", methods=["GET", "POST"])
def as_cut(code: str):
    """What is left of it as it was really cut: drawn, or straight across."""
    error = None
    if request.method == "POST":
        try:
            done = _as_it_was_cut(code)
            tell(_("Recorded. %(left)s", left=_left(done.now)), undo=done.event.id)
            for remnant in done.event.arrivals:
                tell(_("A remnant came apart from it: %(code)s.",
                       code=named(remnant, reader())))
            return redirect(url_for("cuts.as_cut", code=code), 303)
        except StashError as refused:
            error = refused
    card = cuts.card(stash(), code)
    return render_template(
        "cuts/as_cut.html", cut=card.cut, code=card.cut.code, gone=card.gone, holds=card.holds,
        plan=request.values.get("plan", ""), whole=explaining.whole(card.cut.outline), ends=ends(),
        inches=system() is System.INCHES, error=error, typed=request.form if error else None,
    ), status_of(error) if error else 200


def _as_it_was_cut(code: str):
    use = Use(plan=forms.text("plan") or None, despite_hold=forms.ticked("despite_hold"))
    if ring := forms.text("ring", most=20_000):
        return cut_along(stash(), code, ring_of(ring), forms.token(), use=use)
    taken = forms.text("taken")
    return cut_across(
        stash(), code, forms.length("at", Quantity.CUT_LENGTH),
        End.NEAR if taken == End.NEAR else End.FAR, forms.token(), use=use)


@pages.route("/<code>/grain", methods=["GET", "POST"])
def grain(code: str):
    """Where its grain runs: an arrow turned over the outline, or the selvedge pointed at."""
    error = None
    edges = straight_edges(cuts.cut(stash(), code).outline)
    if request.method == "POST":
        try:
            done = _grain_told(code, edges)
            tell(_("Its grain is on record: the drawing lies along it."), undo=done.event.id)
            return redirect(url_for("scanned.open", code=code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "cuts/grain.html", cut=cuts.cut(stash(), code), code=code, edges=edges, error=error,
        presumed=grain_is_presumed(stash(), code), typed=request.form if error else None,
    ), status_of(error) if error else 200


def _grain_told(code: str, edges: Sequence[StraightEdge]):
    if forms.text("edge"):
        edge = edges[forms.count("edge", _("The edge"), 1, len(edges)) - 1]
        return turn_grain(
            stash(), code, edge.turn_deg, forms.token(), by=GrainBy.SELVEDGE,
            selvedge_mm=(edge.start_mm, edge.stop_mm))
    turn = forms.maybe_number("turn", _("The turn"), -180, 180) or 0.0
    return turn_grain(stash(), code, turn, forms.token())


@pages.post("/<code>/join")
def join(code: str):
    """Record that it was sewn to another cut: both are one, with a code of its own."""
    try:
        other = str(payload_of(forms.needed("other", _("The other cut"))).code)
        done = cuts.join(
            stash(), code, other, forms.length("joined_length", Quantity.CUT_LENGTH),
            forms.length("joined_width", Quantity.WIDTH), forms.token())
    except StashError as error:
        return page(code, error=error)
    joined = done.now.cut.code
    tell(_("Joined. Its code is %(code)s: it wants a label.", code=joined), undo=done.event.id)
    return redirect(url_for("scanned.open", code=joined), 303)


@pages.post("/<code>/lend")
def lend(code: str):
    """Record who has it for a while."""
    return _record(
        code,
        lambda: cuts.lend(stash(), code, forms.needed("to", _("Lent to")), forms.token()),
        lambda card: _("%(who)s has it now.", who=card.lent))


@pages.post("/<code>/back")
def back(code: str):
    """Record that it is back."""
    return _record(
        code, lambda: cuts.back(stash(), code, forms.token()), lambda card: _("It is back."))


def _use() -> Use:
    end, edge = forms.text("end"), forms.text("edge")
    return Use(
        end=End(end) if end in tuple(End) else None,
        edge=LongSide(edge) if edge in tuple(LongSide) else LongSide.LEFT,
        plan=forms.text("plan") or None,
        despite_hold=forms.ticked("despite_hold"))


@pages.post("/<code>/remains")
def remains(code: str):
    """Record what is left, whatever was used."""
    return _record(code, lambda: cuts.remains(
        stash(), code, _remaining(), forms.token(), end=_use().end,
        despite_hold=forms.ticked("despite_hold")), _left)


def _remaining() -> float:
    return 0.0 if forms.ticked("nothing") else forms.length("left", Quantity.CUT_LENGTH)


@pages.post("/<code>/re-measure")
def remeasure(code: str):
    """Put the measured truth in the place of the record."""
    if forms.all_as_shown("true_length", "true_width", empty=("corner_length", "corner_width")):
        return _unchanged(code)

    def act():
        long = forms.new_length("true_length")
        wide = forms.length("true_width", Quantity.WIDTH)
        off = (
            forms.maybe_length("corner_length", Quantity.CUT_LENGTH),
            forms.maybe_length("corner_width", Quantity.WIDTH))
        return cuts.measure(
            stash(), code, long, wide, forms.token(), corner_mm=off if all(off) else None)

    return _record(code, act, lambda card: _(
        "The record now says %(long)s by %(wide)s.",
        long=length(card.cut.length_mm), wide=length(card.cut.width_mm)))


@pages.post("/<code>/wash")
def wash(code: str):
    """Record a wash, with its measures or with the shrinkage on record."""
    return _record(code, lambda: cuts.wash(
        stash(), code, forms.maybe_length("washed_length", Quantity.CUT_LENGTH),
        forms.maybe_length("washed_width", Quantity.WIDTH),
        forms.token(), for_cloth=_measured_wash()),
        lambda card: _("Washed. %(left)s", left=_left(card)))


def _measured_wash() -> bool:
    measured = forms.text("washed_length") and forms.text("washed_width")
    return bool(measured) and forms.ticked("for_cloth")


@pages.post("/<code>/move")
def move(code: str):
    """Record where it lies now."""
    return _record(
        code,
        lambda: cuts.move(stash(), code, forms.needed("place", _("Place")), forms.token()),
        lambda card: _("It now lies in %(place)s.", place=card.cut.place),
    )


@pages.post("/<code>/leave")
def leave(code: str):
    """Record that it was given or thrown away."""


    def act():
        despite, how = forms.ticked("despite_hold"), request.form.get("how")
        if how == "sell":
            price = forms.maybe_number("price", _("The price"), 0, 1_000_000)
            minor = None if price is None else round(price * 100)
            return cuts.sell(stash(), code, minor, forms.token(), despite_hold=despite)
        leave = cuts.give_away if how == "gift" else cuts.throw_away
        return leave(stash(), code, forms.token(), despite_hold=despite)

    return _record(code, act, lambda card: _("It has left the stash."))


@pages.route("/new", methods=["GET", "POST"])
def new():
    """Add a cut that has no label yet; it gets a code of its own."""
    error = None
    if request.method == "POST":
        try:
            done = cuts.receive(
                stash(), cut_from_form(), token=forms.token(), bites=bites_from_form())
            code = done.now.cut.code
            tell(_("Saved. Its code is %(code)s.", code=code), undo=done.event.id)
            return redirect(url_for("scanned.open", code=code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "cuts/new.html", error=error, typed=request.form if error else None, **suggestions(),
    ), status_of(error) if error else 200


@pages.route("/<code>/facts", methods=["GET", "POST"])
def edit(code: str):
    """Correct what is on record about the cloth."""
    error, cut = None, cuts.cut(stash(), code)
    if request.method == "POST":
        try:
            done = cuts.describe(
                stash(), cut.code, cloth_from_form(cut.cloth), forms.text("keep_for") or None,
                forms.token())
            tell_saved(done and done.event.id, _("Saved."))
            return redirect(url_for("scanned.open", code=code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "cuts/edit.html", cut=cut, error=error, typed=request.form if error else None,
        **suggestions(),
    ), status_of(error) if error else 200
