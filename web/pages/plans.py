"""Plans: what is meant to be made, and the cloth and notions held for it."""

from __future__ import annotations

from flask import Blueprint, Response, redirect, render_template, request, url_for

from stash.errors import NotFound, StashError
from stash.workroom import asked_lately, bins, cuts, people, plans
from stash.workroom.cutting import cut_plan
from stash.workroom.questions.drawing import drawing as lay_drawing
from stash.workroom.questions.plan_view import show_plan
from stash.workroom.questions.planning import add_plan, hold_lay
from stash.workroom.questions.since_held import drawn_since, short_bins
from stash.workroom.questions.strayed import strayed_in
from stash.workroom.rag import rag_of, said_of
from web import forms
from web.error_pages import status_of, told
from web.formatting import tell
from web.pages.become import DRAWING_POLICY, answered, found
from web.question_form import garment_choices
from web.request_stash import reader, stash
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
            tell(_("The plan “%(name)s” is saved. Now look for cloth for it.", name=view.plan.name))
            return redirect(url_for("plans.show", name=view.plan.name), 303)
        except StashError as refused:
            error = refused
    return render_template(
        "plans/index.html", views=plans.views(stash()), error=error,
        typed=request.form if error else None,
        garments=garment_choices(stash()), people=people.everyone(stash()),
    ), status_of(error) if error else 200


@pages.get("/of/<path:name>")
def show(name: str):
    """One plan: its garments, and what it holds."""
    view = show_plan(stash(), name)
    return render_template(
        "plans/show.html", view=view, strayed=strayed_in(stash(), view),
        since=drawn_since(stash(), view), short=short_bins(stash(), view),
        asked=asked_lately.for_plan(stash(), view.plan.name),
        cuts={code: cuts.card(stash(), code).cut for code in view.holdings.cuts},
        bins={code: bins.card(stash(), code).bin for code in view.holdings.bins},
    )


@pages.post("/hold")
def hold():
    """Hold one lay of an answer, with its notions, for a plan of this name."""
    job = found(forms.text("job"))
    if job.result is None:
        raise NotFound("search_not_ended")
    asking = job.question.asked.asking(job.should_stop)
    try:
        view, event = hold_lay(
            stash(), forms.needed("plan", _("The name of the plan")), job.result,
            forms.text("which"), asking, forms.token())
    except StashError as error:
        return answered(job, error)
    asked_lately.held_for(stash(), job.key, view.plan.name)
    cloths = ", ".join(laid.cut.cloth.name for laid in view.lays.values())
    tell(_("Held for “%(plan)s”: %(cuts)s, and the notions.", plan=view.plan.name, cuts=cloths),
         undo=event.id)
    return redirect(url_for("plans.show", name=view.plan.name), 303)


@pages.post("/of/<path:name>/cut")
def cut(name: str):
    """The lay was cut: the cloth becomes what is left, and remnants get codes of their own."""
    events = cut_plan(stash(), name, forms.text("code") or None, forms.token())
    remnants = [code for event in events for code in event.arrivals]
    tell(_("Cut. What is left is on record, true to its shape."), undo=events[-1].id)
    for fact in said_of(rag_of(stash(), events)):
        tell(told(fact))
    if not remnants:
        return redirect(url_for("plans.show", name=name), 303)
    tell(_("Remnants that want a label: %(codes)s.", codes=", ".join(remnants)))
    return redirect(url_for("labels.show", code=remnants), 303)


@pages.post("/of/<path:name>/made")
def made(name: str):
    """The garments are sewn: the notions that were held have left their bins."""
    event, _view = plans.made(stash(), name, forms.token())
    tell(_("Made. Its notions have left their bins."), undo=event.id)
    return redirect(url_for("plans.show", name=name), 303)


@pages.post("/of/<path:name>/release")
def release(name: str):
    """Give up what the plan holds, all of it or one thing."""
    event, _view = plans.release(
        stash(), name, forms.text("code") or None, forms.token())
    tell(_("Released: it is free for other things."), undo=event.id)
    return redirect(url_for("plans.show", name=name), 303)


@pages.post("/of/<path:name>/remove")
def remove(name: str):
    """Give the plan up altogether."""
    event, _plan = plans.remove(stash(), name, forms.token())
    tell(_("The plan is given up, and what it held is free."), undo=event.id)
    return redirect(url_for("plans.index"), 303)


@pages.get("/of/<path:name>/lay/<code>.svg", defaults={"phone": False})
@pages.get("/of/<path:name>/lay-on-phone/<code>.svg", defaults={"phone": True})
def drawing(name: str, code: str, phone: bool):
    """The held lay on one cut, to scale; each has a path, for a phone without a network."""
    laid = plans.held_lay(stash(), name, code)
    return Response(lay_drawing(laid, reader(), on_phone=phone), mimetype="image/svg+xml", headers={
        "Content-Security-Policy": DRAWING_POLICY})
