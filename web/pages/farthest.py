"""As far as it goes: what is to grow, the search in the background, and each cut's answer."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from urllib.parse import parse_qsl, urlencode

from flask import Blueprint, Response, current_app, redirect, render_template, request, url_for

from stash.errors import InvalidInput, NotFound, StashError
from stash.fact import Fact, fact
from stash.quantity import Quantity
from stash.workroom import asked_lately, finding, people
from stash.workroom.asked_lately import AskedFor, KeptHead
from stash.workroom.drafts import Measure, about
from stash.workroom.opening import open_stash
from stash.workroom.questions.drawing import drawing as lay_drawing
from stash.workroom.questions.farthest import Farther, FartherAnswer, ask_far, grows
from stash.workroom.questions.orders import Order, is_draft, orders_for
from web.drawing.curve import curve
from web.error_pages import status_of
from web.formatting import in_units, say, shown_as
from web.garment_form import option_fields, options_of
from web.jobs import Job, ended, jobs, kept
from web.pages.become import DRAWING_POLICY
from web.question_form import garment_choices
from web.request_stash import reader, stash
from web.texts import _, headed
from web.warm_start import warmed

pages = Blueprint("farthest", __name__, url_prefix="/far")

COPIES = "copies"


@dataclass
class FarthestQuestion:
    """What a job works on: the data folder, the garment as ordered, and what is to grow."""

    data: Path
    order: Order
    farther: Farther
    query: dict[str, str]
    titled: Fact | None = None


@pages.get("/")
def choose():
    """Which garment, before what of it grows."""
    return render_template("farthest/choose.html", garments=garment_choices(stash()),
                           no_cloth=not finding.totals(stash()).count,
                           cut=request.args.get("cut", ""))


@pages.route("/<path:garment>/", methods=["GET", "POST"])
def show(garment: str):
    """What is to grow, for whom, on which cut; the answer is worked out in the background."""
    error, values = None, request.args
    if request.method == "POST":
        values = request.form
        try:
            return _begin(garment)
        except StashError as refused:
            error = refused
    info = about(garment) if is_draft(garment) else None
    everyone = people.everyone(stash())
    body = render_template(
        "farthest/show.html", garment=garment, title=_(info.title) if info else garment,
        grow=_choices(garment), people=[(p.name, p.name) for p in everyone], error=error,
        options=option_fields(info) if info else [], typed=values or None,
        against=[("", _("nothing else")), *_choices(garment)[:-1]] if info else [],
        cut=values.get("cut", ""), measured=bool(info and info.measurements),
        no_cloth=not finding.totals(stash()).count,
    )
    return body, status_of(error) if error else 200


def _choices(garment: str) -> list[tuple[str, str]]:
    """Every length of the draft by what it is, and how many copies.

    Of a pattern of her own how long it is cut, where it may be altered.
    """
    lengths = []
    if not is_draft(garment):
        (order, *_rest) = orders_for(stash(), [garment])
        lengths = [(name, _("How long it is cut")) for name in grows(order) if name != COPIES]
    else:
        lengths = [
            (o.name, headed(in_units(_(o.about)))) for o in about(garment).options
            if isinstance(o, Measure) and not o.name.startswith("seam")
        ]
    lengths.sort(key=lambda choice: choice[0] != "length")
    return [*lengths, (COPIES, _("How many of it"))]


def _begin(garment: str):
    form = request.form
    grow = form.get("grow", "")
    if not grow:
        raise InvalidInput("choose_what_grows", field="grow")
    info = about(garment) if is_draft(garment) else None
    chosen = options_of(info, form) if info else {}
    chosen.pop(grow, None)
    who = [form["person"]] if form.get("person") else []
    order, *_rest = orders_for(stash(), [garment], who, chosen)
    if grow not in grows(order):
        raise InvalidInput("cannot_grow", typed=grow, known=grows(order), field="grow")
    order.drafted()
    farther = Farther(
        grow=grow, against=form.get("against") or None, cut=form.get("cut", "").strip() or None)
    titled = fact("asked_as_far", garments=garment)
    job = Job(
        title=say(titled), about=titled, answered_at="farthest.answer",
        question=FarthestQuestion(
            current_app.config["DATA"], order, farther,
            {"garment": garment, "cut": form.get("cut", "")}, titled),
    )
    jobs().start(job, warmed(_work))
    return redirect(url_for("farthest.answer", key=job.key), 303)


def _work(job: Job) -> FartherAnswer:
    question: FarthestQuestion = job.question

    def found(answer: FartherAnswer) -> None:
        job.found = answer
        job.step(answer.tried, answer.suitable)

    farther = replace(question.farther, stop=job.should_stop, found=found)
    with open_stash(question.data) as opened:
        answer = ask_far(opened, question.order, farther)
        asked_lately.keep(opened, job.key, AskedFor(
            title=job.title, about=question.titled, query=urlencode(question.query)), answer)
        return answer


def _found(key: str) -> tuple[Job, KeptHead | None]:
    """The search, with when it was asked where the stash has changed since.

    Or, of one that an earlier run of the app made, its answer with when it was.
    """
    try:
        head = asked_lately.head_of(stash(), key)
        return kept(key, FarthestQuestion), head if head and head.changed else None
    except NotFound:
        earlier = asked_lately.kept(stash(), key, asked_lately.FAR)
    assert earlier.far
    question = FarthestQuestion(
        current_app.config["DATA"], earlier.far.order, Farther(grow=earlier.far.grow),
        dict(parse_qsl(earlier.head.query)))
    return ended(key, earlier.head.titled(reader()), question, earlier.far), earlier.head


@pages.get("/answer/<key>")
def answer(key: str):
    """How the search stands, and in the end how far each cut goes."""
    job, earlier = _found(key)
    found: FartherAnswer | None = job.result or job.found
    names = dict(_choices(job.question.query["garment"]))
    drawn = ""
    if found and found.curve:
        values = [(p.against, p.reach.value if p.reach else None) for p in found.curve]
        named = (names.get(found.against, found.against), names.get(found.grow, found.grow))
        drawn = curve(values, named, shown_as(Quantity.PATTERN))
    return render_template(
        "farthest/answer.html", job=job, earlier=earlier, answer=found, curve=drawn, names=names,
        counted=job.question.farther.grow == COPIES, query=job.question.query,
    ), 422 if job.error else 200


@pages.get("/answer/<key>/lay/<which>.svg")
def drawing(key: str, which: str):
    """The lay of one cut, or of one point of the curve."""
    job, _earlier = _found(key)
    found: FartherAnswer | None = job.result or job.found
    one = found.named(which) if found else None
    if found is None or one is None:
        raise NotFound("far_not_kept")
    drawn = lay_drawing(one.laid, reader(), on_phone="phone" in request.args)
    return Response(drawn, mimetype="image/svg+xml", headers={
        "Content-Security-Policy": DRAWING_POLICY})
