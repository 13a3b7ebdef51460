"""What ``fit`` asks and how its answer is said; it lays, and is loaded only when it does."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from stash.cli import written
from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, reader
from stash.cli.open_record import open_record
from stash.cli.output import write_output
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Spread
from stash.sentences import Reader, tell
from stash.sentences import say as said
from stash.workroom.questions.answer_json import fit_json
from stash.workroom.questions.drawing import drawing
from stash.workroom.questions.fitting import (
    Asking,
    Candidate,
    FitAnswer,
    Rescue,
    WashHabit,
    ask_fit,
)
from stash.workroom.questions.notions_json import line_json
from stash.workroom.questions.orders import orders_for
from stash.workroom.questions.plan_json import Json
from stash.workroom.questions.spreading import spreads_of
from stash.workroom.searching import weights
from stash.workroom.settings import habits

SHOWN = 12


def fitted(desk: Desk, typed: Mapping[str, Any], *, with_spreads: bool) -> tuple[Json, str]:
    """The answer to the options typed, for a program and for a person; its drawing is saved."""
    with open_record(desk) as stash:
        options = dict(map(parse_option, typed["choices"]))
        orders = orders_for(stash, typed["garments"], typed["people"], options)
        answer, whose = ask_fit(stash, orders, _asking(typed)), reader()
        best = answer.fit.fits[0].laid if with_spreads and answer.fit.fits else None
        spreads = spreads_of(best, habits(stash)) if best else None
    if typed["svg"]:
        save_lay(typed["svg"], answer, whose)
    return fit_json(answer, whose, spreads), fit_text(answer, whose)


def _asking(typed: Mapping[str, Any]) -> Asking:
    spread = typed["spread"]
    return Asking(
        seconds=typed["seconds"], workers=2, giving_up=typed["giving_up"],
        only_cut=typed["only_cut"], weights=weights(typed["prefer"]),
        spread=None if spread == "any" else Spread(spread),
        presume_shrink=typed["presume_shrink"] == "yes",
        wash=WashHabit.AS_IT_LIES if typed["unwashed"] else WashHabit.FIRST,
    )


def save_lay(path: Path, answer: FitAnswer, whose: Reader) -> None:
    """Write the best candidate's lay as an SVG drawing."""
    laid = answer.fit.fits[0].laid if answer.fit.fits else None
    if laid is None:
        raise InvalidInput("no_lay_to_draw", field="svg")
    write_output(path, drawing(laid, whose))


def fit_text(answer: FitAnswer, whose: Reader) -> str:
    """The answer as a person reads it."""
    fit = answer.fit
    lines = [_line(c, whose) for c in fit.candidates[:SHOWN] if c.tried]
    if not fit.candidates and not fit.set_aside:
        lines.append(
            _("All of the cloth is held; --give-up PLAN asks as if a plan held nothing.")
            if answer.taken_whole
            else _("There is no cloth in the stash yet: lengthwise cut add records some.")
        )
    elif not fit.fits:
        lines.append(_("No cut serves as it is drafted; lengthwise shop says what to buy instead."))
    lines += [_rescue(rescue, whose) for rescue in answer.rescues[:5]]
    if fit.set_aside:
        lines.append(_("Not suitable ({number}):", number=len(fit.set_aside)))
        lines += [
            written.of(f"  {s.cut.code}  {s.cut.cloth.name}",
                       said(s.suitability.hard[0], whose)) for s in fit.set_aside
        ]
    lines += [_(
        "Held whole: {code} ({names})",
        code=written.labelled(code), names=', '.join(by),
    ) for code, by in answer.taken_whole.items()]
    lines += [
        written.of(f"  {_(line.role.value)}",
                   f"{line.cut.code if line.cut else '-'}  {tell(line.told, whose)}")
        for line in fit.roles
    ]
    lines += _notions(answer, whose)
    return "\n".join(lines)


def _line(candidate: Candidate, whose: Reader) -> str:
    cut = candidate.cut
    size = written.size(cut.length_mm, cut.width_mm)
    held = _(
        " Part is held for {names}.",
        names=', '.join(candidate.held_by),
    ) if candidate.held_by else ""
    told = said(candidate.verdict.told, whose)
    suits = candidate.suitability
    soft = tell((*suits.soft, *suits.notes, *candidate.hangs_on), whose)
    mark = _("yes") if candidate.fits else _("no")
    line = f"{mark:<4}{cut.code}  {cut.cloth.name}, {size}"
    return written.of(line, f"{told}{held} {soft}").rstrip()


def _rescue(rescue: Rescue, whose: Reader) -> str:
    told = tell((*rescue.told, rescue.saving), whose)
    return written.of(f"  {_('yes') if rescue.fits else _('no'):<4}{rescue.cut.code}", told)


def _notions(answer: FitAnswer, whose: Reader) -> list[str]:
    lines = [_("Notions:")] if answer.notions else []
    for line in answer.notions:
        if line.chosen:
            bins = ", ".join(code for code, _ in line.chosen.parts) or "-"
            lines.append(f"  {bins}  {tell(line.chosen.told, whose)}")
        else:
            lines.append(_(
                "  buy {buy}. {nearest}",
                buy=line_json(line, whose)['buy'], nearest=tell(line.nearest, whose),
            ))
    return lines
