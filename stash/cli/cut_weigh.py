"""``lengthwise cut weigh`` and ``cut roll``: a length without unrolling, with its error."""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say, told
from stash.cli.instead import only_one
from stash.cli.open_record import event_json, open_record
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model.measured import Measured
from stash.model.weights import read_grams, read_swatch
from stash.quantity import Quantity, read_length
from stash.units import parse_mass, significant
from stash.workroom import weighing
from stash.workroom.opening import Stash

record_option = click.option("--record", is_flag=True, help="Put the answer on record.")
replace_option = click.option(
    "--replace", is_flag=True, help="With --record: even in the place of a better figure.")
scale_option = click.option(
    "--scale-step", type=FloatRange(0.001, 100), default=1.0, show_default=True,
    help="The step that the scale shows, in grams.")


@click.command()
@click.argument("code")
@click.option("--grams", required=True, help="What the scale shows: 412.")
@click.option("--like", help="Reckon by this cut, weighed before or of known weight.")
@click.option("--mass", help="What a square metre weighs: “180 g/m2”.")
@click.option("--swatch", help="A piece cut out and weighed: “10cm x 10cm 2.1g”.")
@click.option("--known", is_flag=True, help="Its size on record is true: keep it as the swatch.")
@scale_option
@record_option
@replace_option
@json_option
@pass_desk
def weigh(
    desk: Desk, /, code: str, grams: str, like: str | None, mass: str | None, swatch: str | None,
    known: bool, scale_step: float, record: bool, replace: bool, as_json: bool,
) -> None:
    """Reckon how long a cut is from its weight, with the error; --record keeps it."""
    only_one(like=like, mass=mass, swatch=swatch, known=known)
    scale = weighing.Scale(step_g=scale_step)
    shown = read_grams(grams)
    given = weighing.by_label(parse_mass(mass)) if mass else None
    if swatch:
        given = weighing.by_swatch(*read_swatch(swatch), scale)
    with open_record(desk) as stash:
        if known:
            _keep_swatch(stash, code, shown, scale, as_json)
            return
        found = weighing.weigh_cut(stash, code, shown, scale, given, like)
        event = None
        if record and found.answer.useful:
            event = weighing.record_length(
                stash, code, found.answer.figure, replace=replace)
    figure = found.answer.figure
    value = {
        "length_mm": round(figure.value, 1) if found.answer.useful else None,
        "error_mm": round(figure.error, 1), "useful": found.answer.useful,
        "because": ". ".join(map(told, found.answer.because)),
        "would_help": [told(help_) for help_ in found.answer.would_help],
        "mass_gsm": round(found.mass_gsm.value, 1),
        "mass_error_gsm": round(found.mass_gsm.error, 1),
        "mass_origin": found.mass_gsm.origin.value, "presumed": _presumed(found.mass_gsm),
        "recorded": event_json(event) if event else None,
    }
    say(value, _said(found.answer, bool(event)), as_json=as_json)


def _presumed(mass: Measured) -> bool:
    return mass.origin.value == "presumed"


def _said(answer: weighing.ByWeight, recorded: bool) -> str:
    lines = []
    if answer.useful:
        lines.append(_(
            "{length}, give or take {error}.",
            length=written.cut_length(answer.figure.value),
            error=written.error(answer.figure.error),
        ))
    else:
        lines.append(told_useless(answer))
    lines += [f"{told(fact)}." for fact in answer.because]
    if answer.would_help:
        lines.append(_("To know it better: ") + _("; or ").join(map(told, answer.would_help)) + ".")
    if answer.useful and not recorded:
        lines.append(_("Not recorded; --record keeps it."))
    return "\n".join(lines)


def told_useless(answer: weighing.ByWeight) -> str:
    """What is said where the error is too large for the figure to be of use."""
    return (_(
        "The weight does not tell: the error is {share} per cent.",
        share=round(100 * answer.figure.share),
    ))


def _keep_swatch(
    stash: Stash, code: str, grams: float, scale: weighing.Scale, as_json: bool
) -> None:
    mass, event = weighing.weigh_swatch(stash, code, grams, scale)
    value = {"mass_gsm": round(mass.value, 1), "mass_error_gsm": round(mass.error, 1),
             "recorded": event_json(event)}
    say(value, _(
        "This cloth weighs {weight} g/m², give or take {error}. Other cuts of it are reckoned "
        "by that now.",
        weight=round(mass.value), error=significant(mass.error),
    ), as_json=as_json)


@click.command()
@click.argument("code")
@click.option("--turns", required=True, type=float, help="How many turns lie on it.")
@click.option("--outer", help="Diameter over the cloth of a roll: 14cm.")
@click.option("--core", help="Diameter of the bare core of a roll: 4cm.")
@click.option("--girth", help="Round the cloth on a flat board: 48cm.")
@click.option("--board", help="Round the bare flat board: 44cm.")
@record_option
@replace_option
@json_option
@pass_desk
def roll(
    desk: Desk, /, code: str, turns: float, outer: str | None, core: str | None,
    girth: str | None, board: str | None, record: bool, replace: bool, as_json: bool,
) -> None:
    """Reckon how long a rolled cut is from its turns; --record keeps it."""
    only_one(outer=outer, girth=girth)
    only_one(outer=outer, board=board)
    only_one(core=core, girth=girth)
    only_one(core=core, board=board)
    if not any((outer, core, girth, board)):
        raise InvalidInput("roll_without_measures", field="outer")
    if girth or board:
        figure = weighing.board_length(_tape(girth, "girth"), _tape(board, "board"), turns)
    else:
        figure = weighing.rolled_length(_tape(outer, "outer"), _tape(core, "core"), turns)
    event = None
    with open_record(desk) as stash:
        if record:
            event = weighing.record_length(stash, code, figure, replace=replace)
    value = {"length_mm": round(figure.value, 1), "error_mm": round(figure.error, 1),
             "recorded": event_json(event) if event else None}
    said = (_(
        "{length}, give or take {error}.",
        length=written.cut_length(figure.value), error=written.error(figure.error),
    ))
    say(value, said if event else _(
        "{said}\nNot recorded; --record keeps it.",
        said=said,
    ), as_json=as_json)


def _tape(text: str | None, field: str) -> float:
    return read_length(text or "", Quantity.PATTERN, field=field)
