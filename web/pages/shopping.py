"""Shopping: what is truly short, at each width sold, and a card to take along."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from flask import Blueprint, Response, current_app, redirect, render_template, request, url_for

from stash.errors import NotFound, StashError
from stash.fact import Fact, fact
from stash.model import NotionKind, Repeat
from stash.quantity import Quantity
from stash.workroom import asked_lately, bought, errand, people, plans
from stash.workroom.asked_lately import AskedFor, KeptHead
from stash.workroom.bins import BinRecorded
from stash.workroom.cuts import CutRecorded
from stash.workroom.errand import Errand, HopedFor, card_file
from stash.workroom.opening import open_stash
from stash.workroom.questions.likeness import Wish, ask_like, ask_notions_like
from stash.workroom.questions.shopping import ShopAnswer
from stash.workroom.searching import SECONDS
from web import forms
from web.bin_kinds import kind_name
from web.error_pages import status_of
from web.formatting import say, tell
from web.jobs import Job, ended, jobs, kept
from web.question_form import asked, garment_choices
from web.request_stash import reader, stash
from web.texts import _, headed
from web.warm_start import warmed

pages = Blueprint("shopping", __name__, url_prefix="/shopping")

# A card carries its own colours and one small script, since it must work without us.
CARD_POLICY = ("default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; "
               "img-src data:")


@dataclass(frozen=True, kw_only=True)
class ShoppingQuestion:
    """What a shopping job works on."""

    data: Path
    errand: Errand
    title: str
    about: Fact | None = None


@pages.get("/")
def show():
    """Say what for; or ask whether there is already something like it."""
    return _page()


def _page(error: StashError | None = None):
    body = render_template(
        "shopping/show.html", error=error, typed=request.form if error else None,
        garments=garment_choices(stash()), people=people.everyone(stash()),
        plans=[(name, name) for name in plans.names(stash())],
    )
    return body, status_of(error) if error else 200


@pages.post("/begin")
def begin():
    """Work out the list in the background."""
    try:
        question = _asked_for()
    except StashError as error:
        return _page(error)

    def work(job: Job) -> ShopAnswer:
        with open_stash(question.data) as opened:
            answer = errand.run(
                opened, question.errand, question.title, SECONDS["shop"], stop=job.should_stop)
            asked_lately.keep(opened, job.key, AskedFor(
                title=question.title, about=question.about,
                plans=question.errand.plans), answer)
            return answer

    job = Job(title=question.title, about=question.about, question=question,
              answered_at="shopping.listed")
    jobs().start(job, warmed(work))
    return redirect(url_for("shopping.listed", key=job.key), 303)


def _asked_for() -> ShoppingQuestion:
    data, hoped = current_app.config["DATA"], _hoped()
    if name := forms.text("plan"):
        wanted = errand.for_plans(stash(), name, hoped)
        return ShoppingQuestion(data=data, errand=wanted, title=wanted.plans[0])
    values = request.form.copy()
    if values.getlist("order"):
        values.setlist("garment", [order.removesuffix("@") for order in values.getlist("order")])
    question = asked(values)
    wanted = errand.for_garments(
        stash(), question.garments, question.people, question.options, hoped)
    about = fact("asked_things", garments=tuple(
        f"{o.garment} for {o.person}" if o.person else o.garment for o in wanted.orders))
    return ShoppingQuestion(data=data, errand=wanted, title=headed(say(about))[:120], about=about)


def _hoped() -> HopedFor:
    along, across = (
        forms.maybe_length(name, Quantity.REPEAT) for name in ("repeat_along", "repeat_across"))
    return HopedFor(
        one_way=forms.ticked("one_way"),
        repeat=Repeat(lengthwise_mm=along, crosswise_mm=across) if along or across else None,
        shrink_along_pct=forms.maybe_number("shrink", _("The shrinkage"), 0, 30),
        price_minor_per_m=forms.maybe_price("price", _("The price")),
        all_cloth=forms.ticked("all_cloth"),
    )


def _found(key: str) -> Job:
    """The list as it is made; or the one that an earlier run of the app made."""
    try:
        return kept(key, ShoppingQuestion)
    except NotFound:
        earlier = asked_lately.kept(stash(), key, asked_lately.SHOP)
    return ended(key, earlier.head.titled(reader()), None, earlier.shop)


@pages.get("/<key>")
def listed(key: str):
    """The list, or how far it is; all of it, or only what is bought or still to buy."""
    return _listed(_found(key))


def _listed(job: Job, error: StashError | None = None):
    head = asked_lately.head_of(stash(), job.key)
    return render_template(
        "shopping/listed.html", job=job, answer=job.result, bought=_bought(head), error=error,
        typed=request.form if error else None,
        earlier=head if job.question is None or _something_else_came(head) else None,
        shown=request.args.get("bought", ""),
    ), status_of(error) if error else 422 if job.error else 200


def _something_else_came(head: KeptHead | None) -> bool:
    """Whether more was recorded since than what was bought of this very list."""
    return head is not None and head.changed > len(head.bought)


def _bought(head: KeptHead | None) -> dict[str, str]:
    """The lines that were bought, each with the code of what is on record for it still."""
    found = dict(head.bought) if head else {}
    return {line: code for line, code in found.items() if bought.still(stash(), code)}


@pages.get("/<key>/card.<form>")
def card(key: str, form: str):
    """The take-along card: one file that needs no network."""
    job = _found(key)
    if job.result is None:
        raise NotFound("list_not_ready")
    if form == "pdf":
        return Response(card_file(job.result, form, reader()), mimetype="application/pdf", headers={
            "Content-Disposition": 'attachment; filename="shopping-card.pdf"'})
    if form == "html":
        return Response(card_file(job.result, form, reader()), mimetype="text/html", headers={
            "Content-Disposition": 'attachment; filename="shopping-card.html"',
            "Content-Security-Policy": CARD_POLICY})
    raise NotFound("card_forms")


@pages.post("/<key>/bought")
def bought_this(key: str):
    """One line of the list was bought: a bin or a cut of it, with a label to print."""
    job = _found(key)
    if job.result is None:
        raise NotFound("list_not_ready")
    try:
        line, done = _on_record(job)
    except StashError as error:
        return _listed(job, error)
    asked_lately.was_bought(stash(), key, line, done.event.code)
    tell(_("It is on record. Print its label, or scan a blank one."), undo=done.event.id)
    return redirect(url_for("scanned.open", code=done.event.code), 303)


def _on_record(job: Job) -> tuple[str, CutRecorded | BinRecorded]:
    """(Which line of the list was bought, what is on record for it now.)"""
    line = forms.count("line", _("The line"))
    if forms.ticked("cloth"):
        return f"cloth-{line}", bought.cloth(
            stash(), job.result, line, forms.count("row", _("The width")),
            name=forms.text("name") or job.title, washed=forms.ticked("washed"),
            token=forms.token())
    notions = job.result.card.notions
    name = kind_name(NotionKind(notions[line].kind)) if line < len(notions) else ""
    return f"notion-{line}", bought.notion(stash(), job.result, line, name, forms.token())


@pages.get("/like")
def like():
    """Do I already own one like this?"""
    asked_for, error, found, notions = request.args, None, (), ()
    colour = asked_for.get("colour", "") if "by_colour" in asked_for else ""
    try:
        mass = asked_for.get("mass", "").strip()
        wish = Wish(colour=colour or None, words=asked_for.get("words", ""),
                    mass_gsm=forms.parse_mass(mass, field="mass") if mass else None)
        found = ask_like(stash(), wish)
        notions = ask_notions_like(stash(), colour) if colour else ()
    except StashError as refused:
        error = refused
    return render_template(
        "shopping/like.html", found=found, notions=notions, typed=asked_for, error=error,
        within=asked_for.get("within", type=int), by_colour="by_colour" in asked_for,
        colour=asked_for.get("colour", "#7a1f2b"),
    ), status_of(error) if error else 200
