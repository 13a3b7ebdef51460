"""``lengthwise pattern alter``: darts moved, panels cut, flare and facings, kept as her own."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, json_option, pass_desk, reader, say, told
from stash.cli.open_record import event_json, open_record
from stash.cli.output import output_file, replace_option
from stash.cli.pattern_said import piece_line, save_pattern, saved_line
from stash.cli.words import _
from stash.model.wire import pattern_json
from stash.sentences import say as say_fact
from stash.workroom import altering, people
from stash.workroom.altering import Agreed, Altered, Base, StepDone

PAPERS = click.Choice(["a4", "letter", "a0"])
EPILOG = "\b\nWhat can be done:\n" + "\n".join(f"  {line}" for line in altering.EXAMPLES)


@click.command("alter", epilog=EPILOG)
@click.argument("base", metavar="NAME|GARMENT")
@click.argument("steps", nargs=-1, required=True, metavar="STEP...")
@click.option("--name", help="Keep it under this name; without it the pieces are only shown.")
@click.option("--for", "person", help="Draw it for this person on record.")
@click.option("--option", "choices", multiple=True, metavar="NAME=VALUE",
              help="An option of the draft, for example waist=fitted; may be repeated.")
@replace_option
@click.option("--svg", type=output_file, help="Save a full-size drawing.")
@click.option("--dxf", type=output_file, help="Save for a cutting program.")
@click.option("--tiled", nargs=2, type=(PAPERS, click.Path(path_type=Path)), metavar="PAPER FILE")
@json_option
@pass_desk
def command(
    desk: Desk, base: str, steps: tuple[str, ...], name: str | None, person: str | None,
    choices: tuple[str, ...], svg: Path | None, dxf: Path | None,
    tiled: tuple[str, Path] | None, as_json: bool,
) -> None:
    """Move darts, cut panels, add flare and facings; each STEP follows the one before.

    A length after an edge is measured from its upper end, or from the centre; without one
    its middle is meant.
    """
    with open_record(desk) as stash:
        whose = people.person(stash, person) if person else None
        options = dict(map(parse_option, choices))
        made = altering.altered(stash, Base(name=base, person=whose, options=options), steps)
        event = kept = None
        if name:
            event, kept = altering.keep(stash, made, name)
    saved = save_pattern(made.pattern, svg, dxf, tiled)
    value = {
        **(event_json(event) if event else {}), **pattern_json(made.pattern),
        "pattern": kept.name if kept else None, "version": kept.version if kept else None,
        "steps": [_step_json(s) for s in made.steps], "files": saved,
    }
    title = _(
        "Kept {name}, version {version}",
        name=kept.name, version=kept.version,
    ) if kept else _("Not kept (give it a --name)")
    say(value, "\n".join([title, *_lines(made), *map(saved_line, saved)]), as_json=as_json)


def _lines(made: Altered) -> list[str]:
    return [*(told_step for s in made.steps for told_step in _step_lines(s)),
            *map(piece_line, made.pattern.pieces)]


def _step_lines(step: StepDone) -> list[str]:
    return [say_fact(step.said, reader()), *(f"  {told(a.what)}" for a in step.agreed)]


def _step_json(step: StepDone) -> dict[str, object]:
    """One alteration: its words, what it did, and each pair of figures that must agree."""
    return {
        "step": step.words, "said": told(step.said), "fact": step.said.to_json(),
        "agreed": [_agreed_json(a) for a in step.agreed],
    }


def _agreed_json(agreed: Agreed) -> dict[str, object]:
    return {
        "what": told(agreed.what), "fact": agreed.what.to_json(),
        "one": round(agreed.one, 3), "other": round(agreed.other, 3), "within": agreed.within,
    }
