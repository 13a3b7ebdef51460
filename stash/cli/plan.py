"""``lengthwise plan``: garments meant to be made, and what they hold meanwhile."""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, reader, say, told
from stash.cli.instead import only_one
from stash.cli.open_record import open_record, strayed_json, told_json
from stash.cli.words import _
from stash.fact import Fact
from stash.model import PlannedGarment
from stash.sentences.garments import FOR, garment_said
from stash.workroom import plans
from stash.workroom.opening import Stash
from stash.workroom.questions.plan_json import plan_json
from stash.workroom.questions.plan_view import PlanView, show_plan
from stash.workroom.searching import SECONDS

seconds_option = click.option(
    "--seconds", type=FloatRange(0.1, 3600), default=SECONDS["plan"], show_default=True,
    help="How long to search.",
)


@click.group()
def command() -> None:
    """Plan garments and hold the cloth and notions for them."""


@command.command()
@click.argument("name")
@click.option("--garment", "garments", multiple=True, required=True, metavar="GARMENT[@NAME]")
@click.option("--for", "people", multiple=True, metavar="NAME",
              help="As many people as garments pair in order; else each garment is for everyone.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="For example length=45cm; may be repeated.")
@json_option
@pass_desk
def add(
    desk: Desk, name: str, garments: tuple[str, ...], people: tuple[str, ...],
    choices: tuple[str, ...], as_json: bool,
) -> None:
    """Record a plan, or add garments to one."""
    with open_record(desk) as stash:
        from stash.workroom.questions.planning import add_plan  # drafts the garments

        view = add_plan(stash, name, garments, people, dict(map(parse_option, choices)))
    say(plan_json(view), _text(view), as_json=as_json)


@command.command()
@click.argument("name")
@click.option("--cut", metavar="CODE", help="The cut to hold; the best one when none is named.")
@seconds_option
@json_option
@pass_desk
def hold(desk: Desk, name: str, cut: str | None, seconds: float, as_json: bool) -> None:
    """Hold the plan's lay on a cut, and its notions in the bins."""
    with open_record(desk) as stash:
        from stash.cli.plan_asked import held  # the lay is loaded with the first question

        view, value = held(stash, name, cut, seconds)
    say(value, _text(view), as_json=as_json)


@command.command()
@click.argument("name")
@click.option("--code", help="Give up only this cut or bin.")
@json_option
@pass_desk
def release(desk: Desk, name: str, code: str | None, as_json: bool) -> None:
    """Give up what the plan holds."""
    with open_record(desk) as stash:
        _event, view = plans.release(stash, name, code)
    say(plan_json(view), _text(view), as_json=as_json)


@command.command()
@click.argument("name")
@json_option
@pass_desk
def made(desk: Desk, name: str, as_json: bool) -> None:
    """Record that the garments are sewn: the notions held for them leave their bins."""
    with open_record(desk) as stash:
        _event, view = plans.made(stash, name)
    say(plan_json(view), _(
        "{name} was made on {made}.",
        name=view.plan.name, made=written.on_day(view.plan.made or ""),
    ), as_json=as_json)


@command.command()
@click.argument("name")
@json_option
@pass_desk
def show(desk: Desk, name: str, as_json: bool) -> None:
    """Show a plan and what it holds."""
    with open_record(desk) as stash:
        view = show_plan(stash, name)
        strayed, since = _changes(stash, view)
    text = "\n".join([_text(view), *map(told, (*strayed, *since))])
    value = {**plan_json(view), **strayed_json(strayed), "changed_since": told_json(since)}
    say(value, text, as_json=as_json)


def _changes(stash: Stash, view: PlanView) -> tuple[list[Fact], list[Fact]]:
    """Held lays that no longer lie on their cloth, and what else changed since they were held."""
    if not view.lays and not view.holdings.bins:
        return [], []
    # The lay's libraries and the drafts load with them.
    from stash.workroom.questions.since_held import drawn_since, short_bins
    from stash.workroom.questions.strayed import strayed_in

    strayed = [one for said in strayed_in(stash, view).values() for one in said]
    short = [one for said in short_bins(stash, view).values() for one in said]
    return strayed, [*drawn_since(stash, view), *short]


@command.command("list")
@json_option
@pass_desk
def list_(desk: Desk, as_json: bool) -> None:
    """List all plans."""
    with open_record(desk) as stash:
        views = plans.views(stash)
    text = "\n".join(map(_text, views)) or _("There are no plans yet.")
    say({"plans": [plan_json(view) for view in views]}, text, as_json=as_json)


@command.command()
@click.argument("name")
@json_option
@pass_desk
def remove(desk: Desk, name: str, as_json: bool) -> None:
    """Give up all holds and take the plan off the list."""
    with open_record(desk) as stash:
        _event, plan = plans.remove(stash, name)
    say({"removed": plan.name}, _(
        "Took the plan “{name}” off the list.",
        name=plan.name,
    ), as_json=as_json)


@command.command()
@click.argument("wanted", nargs=-1, metavar="[GARMENT[@NAME]]...")
@click.option("--plan", "name", help="Ask about the garments of a plan.")
@click.option("--for", "people", multiple=True, metavar="NAME")
@click.option("--without-buying", is_flag=True, help="Count only what the bins can supply too.")
@seconds_option
@json_option
@pass_desk
def choose(
    desk: Desk, wanted: tuple[str, ...], name: str | None, people: tuple[str, ...],
    without_buying: bool, seconds: float, as_json: bool,
) -> None:
    """Choose cuts for garments: as many as can be made, each from the best one."""
    only_one(GARMENT=wanted, plan=name)
    with open_record(desk) as stash:
        from stash.cli.plan_asked import ToChoose, chosen  # the lay comes with the first question

        value, text = chosen(stash, ToChoose(
            wanted=wanted, people=people, plan=name, without_buying=without_buying,
            seconds=seconds,
        ))
    say(value, text, as_json=as_json)


def _text(view: PlanView) -> str:
    lines = [view.plan.name]
    lines += [f"  {_of_plan(g)}" for g in view.plan.garments]
    for code, held in view.holdings.cuts.items():
        length = written.cut_length(held.to_mm - held.from_mm)
        lines.append(_("  holds {length} of {code}", length=length, code=written.labelled(code)))
    lines += [_(
        "  holds {length} of {code}", code=written.labelled(code),
        length=written.needed(view.kinds[code], hold.amount),
    ) for code, hold in view.holdings.bins.items()]
    return "\n".join(lines)


def _of_plan(wanted: PlannedGarment) -> str:
    label = f"{wanted.garment} {FOR}{wanted.person}" if wanted.person else wanted.garment
    return garment_said(label, reader())
