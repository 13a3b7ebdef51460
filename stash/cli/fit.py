"""``lengthwise fit``: which cuts of the stash make these garments."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.draft import parse_option
from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.record import open_record
from stash.errors import InvalidInput
from stash.model import Spread
from stash.units import format_length, format_width
from stash.workroom.questions.drawing import draw_candidate
from stash.workroom.questions.fitting import Asking, Candidate, FitAnswer, Weights, ask_fit
from stash.workroom.questions.orders import orders_for

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
              type=click.Choice(["use-up", "oldest", "cheapest"]), help="What counts double.")
@click.option("--seconds", type=click.FloatRange(0.1, 3600), default=4.0, show_default=True,
              help="How long to search.")
@replace_option
@click.option("--svg", type=output_file, help="Save the best lay as a drawing.")
@json_option
@pass_desk
def command(
    desk: Desk, garments: tuple[str, ...], people: tuple[str, ...], choices: tuple[str, ...],
    only_cut: str | None, giving_up: tuple[str, ...], spread: str, prefer: tuple[str, ...],
    seconds: float, svg: Path | None, as_json: bool,
) -> None:
    """Find the cuts that make these garments, best first, each with its lay."""
    asking = Asking(
        seconds=seconds, workers=2, giving_up=giving_up, only_cut=only_cut,
        spread=None if spread == "any" else Spread(spread), weights=weights_of(prefer),
    )
    with open_record(desk) as stash:
        orders = orders_for(stash, garments, people, dict(map(parse_option, choices)))
        answer = ask_fit(stash, orders, asking)
    if svg:
        save_lay(svg, answer)
    say(answer.to_json(), fit_text(answer), as_json=as_json)


def weights_of(prefer: tuple[str, ...]) -> Weights:
    """The usual weights with some aims raised."""
    return Weights(
        use_up=3.0 if "use-up" in prefer else 1.0,
        oldest=1.0 if "oldest" in prefer else 0.0,
        cheapest=1.0 if "cheapest" in prefer else 0.0,
    )


def save_lay(path: Path, answer: FitAnswer) -> None:
    """Write the best candidate's lay as an SVG drawing."""
    if not answer.fit.fits:
        raise InvalidInput("There is no lay to draw: none of the cuts serves.", field="svg")
    drawing = draw_candidate(answer.fit.pieces, answer.fit.fits[0])
    write_output(path, drawing)


def fit_text(answer: FitAnswer) -> str:
    """The answer as a person reads it."""
    fit = answer.fit
    lines = [_line(c) for c in fit.candidates[:SHOWN] if c.verdict]
    if not fit.candidates and not fit.set_aside:
        lines.append(
            "All of the cloth is held; --give-up PLAN asks as if a plan held nothing."
            if answer.taken_whole
            else "There is no cloth in the stash yet: lengthwise cut add records some."
        )
    elif not fit.fits:
        lines.append("No cut serves as it is drafted; lengthwise shop says what to buy instead.")
    for rescue in answer.rescues[:5]:
        lines.append(f"  {'yes' if rescue.fits else 'no '} {rescue.cut.code}: {rescue.says()}")
    if fit.set_aside:
        lines.append(f"Set aside ({len(fit.set_aside)}):")
        lines += [f"  {s.cut.code}  {s.cut.cloth.name}: {s.reason}" for s in fit.set_aside]
    lines += [f"Held whole: {code} ({', '.join(by)})" for code, by in answer.taken_whole.items()]
    lines += [f"  {c.role}: {c.cut.code if c.cut else '-'}  {c.reason}" for c in fit.companions]
    lines += _notions(answer)
    return "\n".join(lines)


def _line(candidate: Candidate) -> str:
    cut = candidate.cut
    size = f"{format_length(cut.length_mm)} x {format_width(cut.width_mm)}"
    held = f" Part is held for {', '.join(candidate.held_by)}." if candidate.held_by else ""
    soft = " ".join(candidate.suitability.soft)
    mark = "yes" if candidate.fits else "no "
    return f"{mark} {cut.code}  {cut.cloth.name}, {size}: {candidate.reason}{held} {soft}".rstrip()


def _notions(answer: FitAnswer) -> list[str]:
    lines = ["Notions:"] if answer.fit.notions else []
    for line in answer.fit.notions:
        if line.chosen:
            bins = ", ".join(code for code, _ in line.chosen.parts) or "-"
            lines.append(f"  {bins}  {line.chosen.says}")
        else:
            lines.append(f"  buy {line.to_json()['buy']}. {line.nearest}")
    return lines
