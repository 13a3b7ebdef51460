"""Plans: what is meant to be made, and the cloth and notions held for it."""

from __future__ import annotations

from dataclasses import replace

from flask import Blueprint, Response, redirect, render_template, request, url_for

from stash.errors import NotFound, StashError
from stash.match.gather import gather
from stash.match.notions.allocation import promised
from stash.match.notions.supplies import supplies
from stash.model import Lay, Piece, Plan
from stash.model.exact import from_plain
from stash.model.plan import PlannedGarment
from stash.store.naming import key_of
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.cutting import cut_plan
from stash.workroom.questions.fitting import FitAnswer
from stash.workroom.questions.free_stock import free_stash
from stash.workroom.questions.orders import planned_orders
from stash.workroom.questions.planning import PlanView, add_plan, held_stretch, show_plan
from web import forms
from web.asking import garment_choices
from web.errors import status_of
from web.laid import Chosen, Laid, chosen
from web.opened import stash, system
from web.pages.become import DRAWING_POLICY, found
from web.showing import tell
from web.texts import _

pages = Blueprint("plans", __name__, url_prefix="/plans")


@pages.route("/", methods=["GET", "POST"])
def index():
    """Every plan, and a form for a new one."""
    error = None
    if request.method == "POST":
        try:
            view = add_plan(
                stash(), forms.needed("name", _("The name of the plan")),
                request.form.getlist("garment"), request.form.getlist("person"), {},
                token=forms.token())
            tell(_("The plan “%(name)s” is kept. Now look for cloth for it.", name=view.plan.name))
            return redirect(url_for("plans.show", name=view.plan.name), 303)
        except StashError as refused:
            error = refused
    views = [show_plan(stash(), plan.name) for plan in stash().plans.all()]
    return render_template(
        "plans/index.html", views=views, error=error, typed=request.form if error else None,
        garments=garment_choices(stash()), people=stash().people.all(),
    ), status_of(error) if error else 200


@pages.get("/of/<path:name>")
def show(name: str):
    """One plan: its garments, and what it holds."""
    view = show_plan(stash(), name)
    cuts = {code: stash().cuts.card(code).cut for code in view.holdings.cuts}
    bins = {code: stash().bins.card(code).bin for code in view.holdings.bins}
    drawn = {code for code in cuts if _held_lay(view, code)}
    return render_template("plans/show.html", view=view, cuts=cuts, bins=bins, drawn=drawn)


@pages.post("/hold")
def hold():
    """Hold one lay of an answer, with its notions, for a plan of this name."""
    name = forms.needed("plan", _("The name of the plan"))
    job = found(forms.text("job"))
    if job.result is None:
        raise NotFound(_("The search has not ended yet; hold the lay when it has."))
    choice = chosen(job.result, job.question.orders, forms.text("which"))
    garments = tuple(
        PlannedGarment(garment=o.garment, person=o.person, options=dict(o.options))
        for o in choice.orders)
    with stash().act(forms.token()):
        _fresh(name, garments)
        event = stash().plans.hold(
            name,
            {one.cut.code: held_stretch(one.cut, one.lay, name, one.pieces)
             for one in choice.lays},
            _notions(job.result, choice, name))
    tell(_("Held for “%(plan)s”: %(cuts)s, and the notions.", plan=name,
           cuts=", ".join(one.cut.cloth.name for one in choice.lays)), undo=event.id)
    return redirect(url_for("plans.show", name=name), 303)


def _notions(answer: FitAnswer | MakingAnswer, choice: Chosen, name: str) -> dict[str, float]:
    """What the bins give: as answered, or as it goes with the cloth that was chosen."""
    if isinstance(answer, MakingAnswer):
        lines = answer.notions
    else:
        bins = free_stash(stash(), giving_up=(name,)).bins
        drafted = tuple(order.drafted() for order in choice.orders)
        lines = supplies(drafted, bins, choice.lays[0].cut, system())
    return {code: amount for code, amount in promised(lines).items() if amount > 0}


def _fresh(name: str, garments: tuple[PlannedGarment, ...]) -> None:
    """The plan as it is now asked for; what it held for an earlier answer is given up."""
    known = next((p for p in stash().plans.all() if key_of(p.name) == key_of(name)), None)
    if known is None or known.garments != garments:
        stash().plans.save(replace(known or Plan(name=name), garments=garments))
    holdings = stash().plans.holdings(name)
    if holdings.cuts or holdings.bins:
        stash().plans.release(name)


@pages.post("/of/<path:name>/cut")
def cut(name: str):
    """The lay was cut: the cloth becomes what is left, and remnants get codes of their own."""
    events = cut_plan(stash(), name, forms.text("code") or None, forms.token())
    remnants = [code for event in events for code in event.arrivals]
    tell(_("Cut. What is left is on record, true to its shape."), undo=events[-1].id)
    if not remnants:
        return redirect(url_for("plans.show", name=name), 303)
    tell(_("Remnants that want a label: %(codes)s.", codes=", ".join(remnants)))
    return redirect(url_for("labels.show", code=remnants), 303)


@pages.post("/of/<path:name>/made")
def made(name: str):
    """The garments are sewn: the notions that were held have left their bins."""
    event = stash().plans.made(name, forms.token())
    tell(_("Made. Its notions have left their bins."), undo=event.id)
    return redirect(url_for("plans.show", name=name), 303)


@pages.post("/of/<path:name>/release")
def release(name: str):
    """Give up what the plan holds, all of it or one thing."""
    event = stash().plans.release(name, forms.token(), forms.text("code") or None)
    tell(_("Released: it is free for other things."), undo=event.id)
    return redirect(url_for("plans.show", name=name), 303)


@pages.post("/of/<path:name>/remove")
def remove(name: str):
    """Give the plan up altogether."""
    event = stash().plans.remove(name, forms.token())
    tell(_("The plan is given up, and what it held is free."), undo=event.id)
    return redirect(url_for("plans.index"), 303)


@pages.get("/of/<path:name>/lay/<code>.svg")
def drawing(name: str, code: str):
    """The held lay on one cut, to scale."""
    one = _held_lay(show_plan(stash(), name), code)
    if one is None:
        raise NotFound(_("This plan holds no lay on that cut."))
    return Response(one.svg(system()), mimetype="image/svg+xml", headers={
        "Content-Security-Policy": DRAWING_POLICY})


def _held_lay(view: PlanView, code: str) -> Laid | None:
    """The lay as it was held, with the pieces that were kept beside it."""
    held = view.holdings.cuts.get(code)
    if held is None or not held.lay:
        return None
    pieces = tuple(from_plain(Piece, piece) for piece in held.lay.get("pieces", ()))
    if not pieces:
        pieces = gather([order.drafted() for order in planned_orders(stash(), view.plan)])
    lay = from_plain(Lay, held.lay)
    if not {p.piece.rpartition("#")[0] for p in lay.placements} <= {p.name for p in pieces}:
        return None
    cut = stash().cuts.card(code).cut
    return Laid(key=code, title=f"{cut.cloth.name} {code}", cut=cut, pieces=pieces, lay=lay)
