"""``lengthwise fit``: which cuts of the stash make these garments."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli import written
from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option, write_output
from stash.errors import InvalidInput
from stash.model import Spread
from stash.sentences import Reader
from stash.sentences import say as said
from stash.workroom.questions.answer_json import fit_json, line_json, tell
from stash.workroom.questions.drawing import drawing
from stash.workroom.questions.fitting import (
    Asking,
    Candidate,
    FitAnswer,
    Rescue,
    WashHabit,
    ask_fit,
)
from stash.workroom.questions.orders import orders_for
from stash.workroom.questions.spreading import spreads_of
from stash.workroom.searching import AIMS, SECONDS, weights
from stash.workroom.settings import habits, reader

SHOWN = 12


@click.command()
@click.argument("garments", nargs=-1, required=True, metavar="GARMENT[@NAME]...")
@click.option("--for", "people", multiple=True, metavar="NAME",
              help="Every garment is made for every NAME; GARMENT@NAME names one.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="For example length=45cm; may be repeated.")
@click.option("--cut", "only_cut", metavar="CODE", help="Ask about one cut only.")
@click.option("--give-up", "giving_up", multiple=True, metavar="PLAN",
              help="As if this plan held nothing.")
@click.option("--spread", type=click.Choice(["open", "lengthwise", "crosswise", "any"]),
              default="open", show_default=True, help="How the cloth lies on the table.")
@click.option("--prefer", multiple=True,
              type=click.Choice(AIMS), help="What counts double.")
@click.option("--presume-shrink", type=click.Choice(["yes", "no"]), default="yes",
              show_default=True, help="Presume a prudent shrinkage where nobody measured one.")
@click.option("--unwashed", is_flag=True,
              help="Lay unwashed cloth as it lies: for what is never washed.")
@click.option("--seconds", type=FloatRange(0.1, 3600), default=SECONDS["fit"], show_default=True,
              help="How long to search.")
@replace_option
@click.option("--svg", type=output_file, help="Save the best lay as a drawing.")
@json_option
@pass_desk
def command(
    desk: Desk, garments: tuple[str, ...], people: tuple[str, ...], choices: tuple[str, ...],
    only_cut: str | None, giving_up: tuple[str, ...], spread: str, prefer: tuple[str, ...],
    presume_shrink: str, unwashed: bool, seconds: float, svg: Path | None, as_json: bool,
) -> None:
    """Find the cuts that make these garments, best first, each with its lay."""
    asking = Asking(
        seconds=seconds, workers=2, giving_up=giving_up, only_cut=only_cut,
        spread=None if spread == "any" else Spread(spread), weights=weights(prefer),
        presume_shrink=presume_shrink == "yes",
        wash=WashHabit.AS_IT_LIES if unwashed else WashHabit.FIRST,
    )
    with open_record(desk) as stash:
        orders = orders_for(stash, garments, people, dict(map(parse_option, choices)))
        answer, whose = ask_fit(stash, orders, asking), reader(stash)
        best = answer.fit.fits[0].laid if as_json and answer.fit.fits else None
        spreads = spreads_of(best, habits(stash)) if best else None
    if svg:
        save_lay(svg, answer, whose)
    say(fit_json(answer, whose, spreads), fit_text(answer, whose), as_json=as_json)


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
            "All of the cloth is held; --give-up PLAN asks as if a plan held nothing."
            if answer.taken_whole
            else "There is no cloth in the stash yet: lengthwise cut add records some."
        )
    elif not fit.fits:
        lines.append("No cut serves as it is drafted; lengthwise shop says what to buy instead.")
    lines += [_rescue(rescue, whose) for rescue in answer.rescues[:5]]
    if fit.set_aside:
        lines.append(f"Not suitable ({len(fit.set_aside)}):")
        lines += [
            f"  {s.cut.code}  {s.cut.cloth.name}: {said(s.suitability.hard[0], whose)}"
            for s in fit.set_aside
        ]
    lines += [f"Held whole: {code} ({', '.join(by)})" for code, by in answer.taken_whole.items()]
    lines += [
        f"  {line.role.value}: {line.cut.code if line.cut else '-'}  {tell(line.told, whose)}"
        for line in fit.roles
    ]
    lines += _notions(answer, whose)
    return "\n".join(lines)


def _line(candidate: Candidate, whose: Reader) -> str:
    cut = candidate.cut
    size = written.size(cut.length_mm, cut.width_mm)
    held = f" Part is held for {', '.join(candidate.held_by)}." if candidate.held_by else ""
    told = said(candidate.verdict.told, whose)
    soft = tell((*candidate.suitability.soft, *candidate.suitability.notes), whose)
    mark = "yes" if candidate.fits else "no "
    return f"{mark} {cut.code}  {cut.cloth.name}, {size}: {told}{held} {soft}".rstrip()


def _rescue(rescue: Rescue, whose: Reader) -> str:
    told = tell((*rescue.told, rescue.saving), whose)
    return f"  {'yes' if rescue.fits else 'no '} {rescue.cut.code}: {told}"


def _notions(answer: FitAnswer, whose: Reader) -> list[str]:
    lines = ["Notions:"] if answer.notions else []
    for line in answer.notions:
        if line.chosen:
            bins = ", ".join(code for code, _ in line.chosen.parts) or "-"
            lines.append(f"  {bins}  {tell(line.chosen.told, whose)}")
        else:
            lines.append(f"  buy {line_json(line, whose)['buy']}. {tell(line.nearest, whose)}")
    return lines
