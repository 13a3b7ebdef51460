"""What ``plan hold`` and ``plan choose`` ask: they lay, and are loaded only when they do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.cli import written
from stash.cli.frame import reader
from stash.cli.words import _
from stash.sentences import Reader, say
from stash.sentences.garments import garment_said
from stash.workroom.opening import Stash
from stash.workroom.questions.answer_json import fit_json, making_json
from stash.workroom.questions.assignment import MakingAnswer, ask_making
from stash.workroom.questions.fitting import Asking
from stash.workroom.questions.notions_json import line_json
from stash.workroom.questions.orders import orders_for, planned_orders
from stash.workroom.questions.plan_json import Json, plan_json
from stash.workroom.questions.plan_view import PlanView, show_plan
from stash.workroom.questions.planning import hold_plan


def held(stash: Stash, name: str, cut: str | None, seconds: float) -> tuple[PlanView, Json]:
    """The plan with the lay it now holds."""
    view, answer = hold_plan(stash, name, cut, Asking(seconds=seconds, workers=2))
    told = fit_json(answer, reader())
    return view, {**plan_json(view), "lay": told["candidates"][0],
                  "missing_notions": told["missing_notions"]}


@dataclass(frozen=True, kw_only=True)
class ToChoose:
    """Garments to choose cuts for: as typed, or those of a plan."""

    wanted: Sequence[str]
    people: Sequence[str]
    plan: str | None
    without_buying: bool
    seconds: float


def chosen(stash: Stash, asked: ToChoose) -> tuple[Json, str]:
    """Which cuts were chosen, for a program and for a person."""
    giving_up = (asked.plan,) if asked.plan else ()
    asking = Asking(seconds=asked.seconds, workers=2, giving_up=giving_up)
    if asked.plan:
        orders = planned_orders(stash, show_plan(stash, asked.plan).plan)
    else:
        orders = orders_for(stash, asked.wanted, asked.people)
    answer = ask_making(stash, orders, asking, without_buying=asked.without_buying)
    whose = reader()
    return making_json(answer, whose), _making_text(answer, whose)


def _making_text(answer: MakingAnswer, whose: Reader) -> str:
    lines = []
    for made in answer.made:
        lines.append(_(
            "{called}: {code}  {name}, {length} left",
            called=_called(made.labels, whose), code=made.cut.code, name=made.cut.cloth.name,
            length=written.cut_length(made.left_mm),
        ))
        if made.stretch:
            lines += [f"  {say(one, whose)}" for one in made.stretch.told]
    lines += [_(
        "{garment}: from no cut",
        garment=garment_said(label, whose),
    ) for label in answer.unmade]
    for line in answer.notions:
        if not line.chosen:
            lines.append(_("  buy {buy}", buy=line_json(line, whose)['buy']))
    return "\n".join(lines)


def _called(labels: Sequence[str], whose: Reader) -> str:
    return _(" and ").join(garment_said(label, whose) for label in labels)
