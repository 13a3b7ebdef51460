"""``lengthwise pattern set``: what is known of a pattern, set right."""

from __future__ import annotations

import click

from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say
from stash.cli.open_record import event_json, open_record
from stash.cli.pattern_said import piece_line
from stash.cli.words import _
from stash.model import Construction
from stash.model.wire import pattern_json
from stash.workroom import patterns


@click.command("set")
@click.argument("name")
@click.option("--wearer", help="For whom it is.")
@click.option("--piece", "lines", multiple=True, metavar="LINE",
              help="For example “back: fold, cut 1, grain 90, allowance 15mm, pocket”.")
@click.option("--needs", "needs", multiple=True, metavar="LINE",
              help="A notion, for example “5 buttons 15 mm”; “none” for none at all.")
@click.option("--caution", "cautions", multiple=True,
              help="A caution to show with it; “none” for none at all.")
@click.option("--weight", metavar="LEAST-MOST",
              help="Cloth in g/m2, for example 120-250; “any” for any.")
@click.option("--stretch", type=FloatRange(0, 200), help="Stretch across it relies on, %.")
@click.option("--cloth", "constructions", multiple=True,
              type=click.Choice([c.value for c in Construction]))
@click.option("--one-way/--both-ways", default=None, help="Which ways its pieces may point.")
@json_option
@pass_desk
def command(
    desk: Desk, name: str, wearer: str | None, lines: tuple[str, ...], needs: tuple[str, ...],
    cautions: tuple[str, ...], weight: str | None, stretch: float | None,
    constructions: tuple[str, ...], one_way: bool | None, as_json: bool,
) -> None:
    """Set right what a pattern of your own is: keep it as a new version."""
    change = patterns.PatternChange(
        wearer=wearer, pieces=tuple(map(patterns.parse_change, lines)),
        needs=tuple(map(patterns.parse_need, _said(needs))) if needs else None,
        cautions=_said(cautions) if cautions else None, stretch_pct=stretch,
        mass_gsm=patterns.parse_weights(weight) if weight else None, one_way=one_way,
        constructions=tuple(map(Construction, constructions)) or None,
    )
    with open_record(desk) as stash:
        event, kept = patterns.correct(stash, name, change)
    value = {**event_json(event), "pattern": kept.name, "version": kept.version,
             **pattern_json(kept.pattern)}
    text = [_(
        "{name}, version {version}",
        name=kept.name, version=kept.version,
    ), *map(piece_line, kept.pattern.pieces)]
    say(value, "\n".join(text), as_json=as_json)


def _said(lines: tuple[str, ...]) -> tuple[str, ...]:
    """What was said, and nothing where it was said that there is none."""
    return tuple(line for line in lines if line.strip().lower() != "none")
