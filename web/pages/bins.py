"""Bins of notions: the list, the page of one bin, and taking from it in two taps."""

from __future__ import annotations

from flask import Blueprint, redirect, render_template, request, url_for

from stash.errors import StashError
from stash.model import Bin, NotionKind
from stash.units import System, parse_length
from stash.workroom import bins, explaining, origins, photos, places
from stash.workroom.plans import unmade
from stash.workroom.questions.since_held import short_of
from web import bin_form, forms
from web.bin_kinds import kind_name, kinds
from web.error_pages import status_of
from web.event_lines import lines
from web.formatting import amount, tell, tell_saved
from web.request_stash import stash, system
from web.texts import _

pages = Blueprint("bins", __name__, url_prefix="/bins")

LENGTHS = {System.METRIC: ("10 cm", "20 cm", "50 cm", "75 cm", "1 m", "2 m"),
           System.INCHES: ("4 in", "9 in", "1/2 yd", "27 in", "1 yd", "2 yd")}
AT_ONCE = 120
COUNTS = ("1", "2", "3", "5", "6", "7")
SMALL = {NotionKind.BUTTON, NotionKind.SNAP, NotionKind.HOOK}


def page(code: str, *, error: StashError | None = None):
    """The page a scan opens; with a refusal, what was typed stays."""
    card = bins.card(stash(), code)
    held, kind = card.bin, card.bin.notion.kind
    body = render_template(
        "bins/show.html", held=held, code=held.code, gone=card.gone, holds=card.holds, error=error,
        typed=request.form if error else None, counted=kind.counted,
        counted_value=amount(held.amount, kind) if held.amount or kind.counted else "0",
        short=short_of(held, card.holds), buttonhole_mm=bins.buttonhole_of(held),
        account=explaining.bin_account(stash(), code),
        known=origins.said_of(origins.of_bin(stash(), held))
        + origins.said_of_colour(stash(), held),
        quick=_quick(held), history=lines(code),
        photos=photos.of(stash(), code), places=places.names(stash()),
        plans=[(name, name) for name in unmade(stash())],
        caution=_("Small parts: keep them from children under three, and sew them on "
                  "so that they hold a hard pull.") if kind in SMALL else "",
    )
    return body, status_of(error) if error else 200


def _quick(held: Bin) -> list[str]:
    """What is taken most often, as far as there is more than that; "all of it" is the rest."""
    kind = held.notion.kind
    offered = COUNTS if kind.counted else LENGTHS[system()]
    return [text for text in offered if _quick_amount(kind, text) < held.amount]


def _quick_amount(kind: NotionKind, text: str) -> float:
    return float(text) if kind.counted else parse_length(text)


def _record(code: str, act, said):
    try:
        done = act()
    except StashError as error:
        return page(code, error=error)
    tell(said(done.now.bin), undo=done.event.id)
    return redirect(url_for("scanned.open", code=code), 303)


def _there(held: Bin) -> str:
    kind = held.notion.kind
    if not held.amount:
        return _("The bin is empty now.")
    if kind.counted:
        return _("%(n)s are left.", n=amount(held.amount, kind)) if held.amount != 1 else (
            _("1 is left."))
    return _("%(n)s is left.", n=amount(held.amount, kind))


def _kind(code: str) -> NotionKind:
    return bins.card(stash(), code).bin.notion.kind


@pages.post("/<code>/take")
def take(code: str):
    """Record that some were taken."""
    taken = []

    def act():
        if forms.ticked("share"):
            return _take_share(code, taken)
        kind, quick = _kind(code), request.form.get("quick")
        value = _quick_amount(kind, quick) if quick else bin_form.amount(kind, "amount")
        taken.append(amount(value, kind))
        return bins.take(
            stash(), code, value, forms.token(), plan=forms.text("plan") or None,
            despite_hold=forms.ticked("despite_hold"))

    return _record(code, act, lambda held: _("Took %(n)s. ", n=taken[0]) + _there(held))


def _take_share(code: str, taken: list[str]):
    share = forms.number("share", _("How much"), 0.01, 1.0)
    taken.append(_("about half") if share < 1 else _("all of it"))
    return bins.take_share(
        stash(), code, share, forms.token(), plan=forms.text("plan") or None,
        despite_hold=forms.ticked("despite_hold"))


@pages.post("/<code>/count")
def count(code: str):
    """Put what was counted in the place of the record."""
    if forms.untouched("there"):
        tell_saved(None, "")
        return redirect(url_for("scanned.open", code=code), 303)
    return _record(
        code,
        lambda: bins.count(stash(), code, bin_form.amount(_kind(code), "there"), forms.token()),
        lambda held: _("Saved. ") + _there(held),
    )


@pages.post("/<code>/put")
def put(code: str):
    """Record that more came in."""
    return _record(
        code,
        lambda: bins.put(stash(), code, bin_form.amount(_kind(code), "more"), forms.token()),
        lambda held: _("Put in. There is now %(n)s.", n=amount(held.amount, held.notion.kind)),
    )


@pages.post("/<code>/move")
def move(code: str):
    """Record where it stands now."""
    return _record(
        code,
        lambda: bins.move(stash(), code, forms.needed("place", _("Place")), forms.token()),
        lambda held: _("It now stands in %(place)s.", place=held.place),
    )


@pages.post("/<code>/leave")
def leave(code: str):
    """Record that it was given or thrown away."""
    how = bins.give_away if request.form.get("how") == "gift" else bins.throw_away
    return _record(code, lambda: how(
        stash(), code, forms.token(), despite_hold=forms.ticked("despite_hold")),
                   lambda held: _("It has left the stash."))


@pages.get("/")
def index():
    """Every bin, by kind."""
    q, kind = request.args.get("q", ""), request.args.get("kind", "")
    first = max(request.args.get("first", 0, type=int), 0)
    found = bins.answering(
        stash(), q, lambda mm: amount(mm, NotionKind.ZIP)) if q.strip() else bins.kinds(stash())
    order = {each.value: number for number, each in enumerate(NotionKind)}
    shown = sorted((code for code, own in found.items() if kind in ("", own)),
                   key=lambda code: order[found[code]])
    page = bins.cards_of(stash(), shown[first : first + AT_ONCE])
    groups = [
        (kind_name(k), group)
        for k in NotionKind if (group := [card.bin for card in page if card.bin.notion.kind is k])
    ]
    return render_template(
        "bins/index.html", count=len(shown), page=page, groups=groups, q=q, kind=kind,
        kinds=kinds(), first=first, at_once=AT_ONCE,
    )


@pages.route("/new", methods=["GET", "POST"])
def new():
    """Add a bin that has no label yet; it gets a code of its own."""
    error = None
    if request.method == "POST":
        try:
            done = bins.receive(stash(), bin_form.bin_from_form(), token=forms.token())
            code = done.now.bin.code
            tell(_("Saved. Its code is %(code)s.", code=code), undo=done.event.id)
            return redirect(url_for("scanned.open", code=code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "bins/new.html", error=error, typed=request.form if error else None,
        **bin_form.suggestions(),
    ), status_of(error) if error else 200


@pages.route("/<code>/facts", methods=["GET", "POST"])
def edit(code: str):
    """Correct what is on record about what is in the bin."""
    error, held = None, bins.held(stash(), code)
    if request.method == "POST":
        try:
            done = bins.describe(
                stash(), held.code, bin_form.notion_from_form(held.notion), forms.token())
            tell_saved(done and done.event.id, _("Saved."))
            return redirect(url_for("scanned.open", code=held.code), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "bins/edit.html", held=held, error=error, typed=request.form if error else None
    ), status_of(error) if error else 200
