"""What can I make? The question, the search in the background, and the answer."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from urllib.parse import urlencode

from flask import Blueprint, Response, current_app, redirect, render_template, request, url_for

from stash.errors import NotFound, StashError
from stash.fact import Fact
from stash.model import Laid, Spread
from stash.workroom import asked_lately, finding, people, plans
from stash.workroom.answer_lays import AnswerLay, lay_named, lays
from stash.workroom.asked_lately import AskedFor
from stash.workroom.opening import open_stash
from stash.workroom.questions.assignment import MakingAnswer, ask_making
from stash.workroom.questions.drawing import drawing as lay_drawing
from stash.workroom.questions.drawing import positions
from stash.workroom.questions.fitting import FitAnswer, ask_fit
from stash.workroom.questions.orders import Order
from stash.workroom.questions.spreading import WAYS, Spreads, spreads_of
from stash.workroom.settings import habits
from web.error_pages import status_of
from web.formatting import called, measure_name, say
from web.jobs import Job, jobs, kept
from web.question_form import (
    LOOKS,
    SOURCES,
    SPREADS,
    Asked,
    asked,
    garment_choices,
    option_rows,
    own_option_rows,
)
from web.request_stash import reader, stash
from web.texts import _, headed
from web.warm_start import warmed

pages = Blueprint("become", __name__, url_prefix="/become")

# A drawing carries its own colours, which the page's policy would not let it.
DRAWING_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
SHOWN = 6


@dataclass
class BecomeQuestion:
    """What a job works on: the data folder and what was asked of it."""

    data: Path
    asked: Asked
    query: str
    plans: tuple[str, ...] = ()
    orders: tuple[Order, ...] = ()
    spreads: dict[str, Spreads] = field(default_factory=dict)


@pages.route("/", methods=["GET", "POST"])
def show():
    """Choose garments and people; the answer is worked out in the background."""
    error, values = None, request.args
    if request.method == "POST":
        values = request.form
        try:
            return _begin(asked(values))
        except StashError as refused:
            error = refused
    return _form(values, error)


def _begin(question: Asked):
    for order in question.orders(stash()):
        order.drafted()
    query = urlencode([
        (name, value) for name, value in request.form.items(multi=True)
        if value and name != "token"
    ])
    job = Job(
        title=headed(say(question.about)), about=question.about, answered_at="become.answer",
        question=BecomeQuestion(
            current_app.config["DATA"], question, query,
            tuple(request.form.getlist("for_plan"))))
    jobs().start(job, warmed(_work))
    return redirect(url_for("become.answer", key=job.key), 303)


def _work(job: Job) -> FitAnswer | MakingAnswer:
    question: BecomeQuestion = job.question
    asked_for = AskedFor(title=job.title, about=question.asked.about, query=question.query,
                         plans=question.plans)
    with open_stash(question.data) as opened:
        orders = question.orders = question.asked.orders(opened)
        asking = question.asked.asking(job.should_stop)
        if question.asked.apart:
            making = ask_making(
                opened, orders, asking, without_buying=question.asked.without_buying)
            asked_lately.keep(opened, job.key, asked_for, making)
            return making

        def improved(fit) -> None:
            job.found = FitAnswer(orders=orders, fit=fit)
            tried = sum(c.tried for c in fit.candidates)
            job.step(tried, len(fit.candidates))

        answer = ask_fit(opened, orders, asking, improved)
        asked_lately.keep(opened, job.key, asked_for, answer)
        return answer


def _form(values, error: StashError | None = None, note: str = ""):
    everyone = people.everyone(stash())
    chosen = tuple(values.getlist("garment"))
    ticked = values.getlist("person") or ([everyone[0].name] if len(everyone) == 1 else [])
    body = render_template(
        "become/show.html", error=error, typed=values if values else None, note=note,
        garments=garment_choices(stash()), people=everyone,
        no_cloth=not finding.totals(stash()).count, chosen=chosen, ticked=ticked,
        options=[*option_rows(chosen), *own_option_rows(stash(), chosen)],
        cut=values.get("cut", ""),
        plans=plans.names(stash()),
        seconds=[(k, _(v)) for k, v in LOOKS.items()],
        spreads=[(k, _(v)) for k, v in SPREADS.items()],
        sources=[(k, _(v)) for k, v in SOURCES.items()],
    )
    return body, status_of(error) if error else 200


def found(key: str) -> Job:
    """A search that is still kept; NotFound says to ask again."""
    return kept(key, BecomeQuestion)


@pages.get("/<key>")
def answer(key: str):
    """How the search stands, and in the end its answer."""
    try:
        job = found(key)
    except NotFound:
        asked_lately.kept(stash(), key, asked_lately.FIT)  # or it says to ask again
        return redirect(url_for("asked.show", key=key))
    return answered(job)


def answered(job: Job, error: StashError | None = None):
    """The page of an answer; with the refusal of what was typed into it."""
    shown = job.result or job.found
    status = status_of(error) if error else 422 if job.error else 200
    drawn = {one.key: one for one in lays(shown)} if shown else {}
    told = {
        "job": job, "answer": shown, "error": error, "typed": request.form if error else None,
        "lays": drawn, "plans": plans.names(stash()),
        "since": {key: _since(job.key, one.laid) for key, one in drawn.items()},
    }
    if isinstance(shown, MakingAnswer):
        return render_template("become/making.html", **told), status
    return render_template(
        "become/answer.html", **told, asked=job.question.asked, most=SHOWN,
        estimated=_estimated(shown) if shown else [], cautions=_cautions(shown) if shown else [],
    ), status


def _since(key: str, laid: Laid) -> tuple[Fact, ...]:
    """What has become of the cut since; nothing while the search is not over."""
    head = asked_lately.head_of(stash(), key)
    return asked_lately.since(stash(), head, laid) if head else ()


def _estimated(shown: FitAnswer) -> list[tuple[str, str]]:
    """Whose measurements were estimated, and which."""
    rows = {}
    for garment in shown.garments:
        names = [measure_name(n) for n in garment.pattern.estimated]
        if names and garment.person:
            rows.setdefault(garment.person, dict.fromkeys(names)).update(dict.fromkeys(names))
    return [(person, ", ".join(names)) for person, names in rows.items()]


def _cautions(shown: FitAnswer) -> list[str]:
    return list(dict.fromkeys(c for g in shown.garments for c in g.pattern.cautions))


def _lay_of(key: str, which: str):
    job = found(key)
    shown = job.result or job.found
    if shown is None:
        raise NotFound("no_lay_yet")
    return job, lay_named(shown, which)


def _spreads(job: Job, one: AnswerLay) -> Spreads:
    """The other ways to spread a lay's cloth, searched when the lay is first looked at."""
    known = job.question.spreads
    if one.key not in known or known[one.key].laid != one.laid:
        known[one.key] = spreads_of(one.laid, habits(stash()))
    return known[one.key]


def _spread_so(job: Job, one: AnswerLay) -> AnswerLay:
    """The lay, or the one of another way to spread the cloth that the address names."""
    spread = request.args.get("spread", one.laid.lay.spread.value)
    if spread == one.laid.lay.spread:
        return one
    laid = _spreads(job, one).laid_so(Spread(spread)) if spread in list(Spread) else None
    if laid is None:
        raise NotFound("no_such_lay")
    return replace(one, laid=laid)


def _titled(one: AnswerLay) -> str:
    """"apron: Dune linen K7QW"."""
    cut = one.laid.cut
    named = f"{cut.cloth.name} {cut.code}"
    whole = f"{called(one.what)}: {named}" if one.what else named
    return f"{whole}. {say(one.changes)}" if one.changes else whole


@pages.get("/<key>/lay/<which>")
def lay(key: str, which: str):
    """One lay by itself, large, with the table of positions, to print."""
    if _gone(key):
        return _kept_lay("asked.lay", key, which)
    job, one = _lay_of(key, which)
    shown = _spread_so(job, one)
    drawn = partial(url_for, "become.drawing", key=key, which=which,
                    used=round(shown.laid.lay.length_mm), spread=shown.laid.lay.spread.value)
    return render_template(
        "become/lay.html", heading=job.titled(reader()), title=_titled(one),
        laid=shown.laid, since=_since(key, shown.laid), positions=positions(shown.laid),
        spreads=_spreads(job, one), named=WAYS,
        back=url_for("become.answer", key=key), drawn=drawn(), on_phone=drawn(phone=1))


@pages.get("/<key>/lay/<which>.svg")
def drawing(key: str, which: str):
    """The drawing of one lay."""
    if _gone(key):
        return _kept_lay("asked.drawing", key, which)
    one = _spread_so(*_lay_of(key, which))
    drawn = lay_drawing(one.laid, reader(), _titled(one), on_phone="phone" in request.args)
    return Response(drawn, mimetype="image/svg+xml", headers={
        "Content-Security-Policy": DRAWING_POLICY})


def _gone(key: str) -> bool:
    """Whether the search is no longer kept here: the app has begun anew since."""
    try:
        found(key)
    except NotFound:
        return True
    return False


def _kept_lay(page: str, key: str, which: str):
    """To the lay in the kept answer; where there is none, NotFound says to ask again."""
    asked_lately.kept(stash(), key, asked_lately.FIT).line(which)
    return redirect(url_for(page, key=key, which=which, phone=request.args.get("phone")))
