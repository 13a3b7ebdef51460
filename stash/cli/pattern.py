"""``lengthwise pattern``: patterns of her own, from files, photographs and paper."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import click

from stash.cli import pattern_alter, pattern_trace, written
from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say, told
from stash.cli.input import read_file
from stash.cli.instead import only_one
from stash.cli.open_record import event_json, open_record
from stash.cli.output import output_file, replace_option
from stash.cli.pattern_said import (
    estimate_line,
    estimate_value,
    keep_reading,
    piece_line,
    piece_value,
    save_pattern,
    save_sizes,
    saved_line,
)
from stash.cli.words import _
from stash.model import Construction
from stash.model.wire import pattern_json
from stash.quantity import Quantity, read_length
from stash.workroom import patterns, people
from stash.workroom.patterns import (
    parse_change,
    parse_need,
    parse_typed,
    parse_weights,
    read_pattern,
)

PAPERS = click.Choice(["a4", "letter", "a0"])


@click.group()
def command() -> None:
    """Keep patterns of your own: import, trace from a photograph, or type them in."""


command.add_command(pattern_alter.command)
command.add_command(pattern_trace.command)

@command.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--name", help="What the pattern is called [default: the file's name].")
@click.option("--units", type=click.Choice(["mm", "cm", "in"]), help="One unit of the drawing.")
@click.option("--grain", type=click.Choice(["upright", "level"]), help="Where none is drawn.")
@click.option("--size", help="Which size, where several are drawn on layers or in styles of line.")
@click.option("--for", "person", help="Take the size nearest to this person's measurements.")
@click.option("--sizes", default="", metavar="TABLE",
              help="Whom each size is for: “38: bust 88 cm, hip 94 cm; 40: bust 92 cm, hip 98 cm”.")
@json_option
@pass_desk
def import_(
    desk: Desk, file: Path, name: str | None, units: str | None, grain: str | None,
    size: str | None, person: str | None, sizes: str, as_json: bool,
) -> None:
    """Import the pieces of an SVG or DXF file and keep them as a pattern."""
    only_one(**{"for": person}, size=size)
    data, said = read_file(file), None
    if person:
        with open_record(desk) as stash:
            whose = people.person(stash, person)
        size, said = patterns.size_for(data, whose, sizes, units)
    reading = read_pattern(data, units, grain, size)
    if said:
        reading = replace(reading, notes=(said, *reading.notes))
    keep_reading(desk, name or file.stem, reading, file.name, as_json)


@command.command()
@click.argument("name")
@click.option(
    "--piece", "lines", multiple=True, required=True, metavar="LINE",
    help="For example “front, 104cm x 30cm, cut 2, mirrored”, or several widths from the top "
    "down: “back, 70cm x 20cm-28cm, on fold”.",
)
@json_option
@pass_desk
def add(desk: Desk, name: str, lines: tuple[str, ...], as_json: bool) -> None:
    """Type in the pieces of a paper pattern as rectangles or by their widths."""
    keep_reading(desk, name, patterns.typed(tuple(map(parse_typed, lines))), "typed", as_json)


@command.command("set")
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
def set_(
    desk: Desk, name: str, wearer: str | None, lines: tuple[str, ...], needs: tuple[str, ...],
    cautions: tuple[str, ...], weight: str | None, stretch: float | None,
    constructions: tuple[str, ...], one_way: bool | None, as_json: bool,
) -> None:
    """Set right what a pattern of your own is: keep it as a new version."""
    change = patterns.PatternChange(
        wearer=wearer, pieces=tuple(map(parse_change, lines)),
        needs=tuple(map(parse_need, _said(needs))) if needs else None,
        cautions=_said(cautions) if cautions else None, stretch_pct=stretch,
        mass_gsm=parse_weights(weight) if weight else None, one_way=one_way,
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


@command.command("list")
@json_option
@pass_desk
def list_(desk: Desk, as_json: bool) -> None:
    """List the patterns on record."""
    with open_record(desk) as stash:
        kept = patterns.everything(stash)
    value = [
        {"pattern": k.name, "version": k.version, "source": k.source,
         "pieces": [p.name for p in k.pattern.pieces]}
        for k in kept
    ]
    lines = [_(
        "{name}, version {version}, pieces: {number}",
        name=k.name, version=k.version, number=len(k.pattern.pieces),
    ) for k in kept]
    say({"patterns": value}, "\n".join(lines) or _("No patterns yet."), as_json=as_json)


@command.command()
@click.argument("name")
@click.option("--version", type=int, help="An earlier version.")
@replace_option
@click.option("--svg", type=output_file, help="Save a full-size drawing.")
@click.option("--dxf", type=output_file, help="Save for a cutting program.")
@click.option("--tiled", nargs=2, type=(PAPERS, click.Path(path_type=Path)), metavar="PAPER FILE")
@click.option("--size", "sizes", multiple=True, metavar="SIZE=NAME",
              help="Write this pattern into the --dxf file as a size; give it for each size.")
@json_option
@pass_desk
def show(
    desk: Desk, name: str, version: int | None, svg: Path | None, dxf: Path | None,
    tiled: tuple[str, Path] | None, sizes: tuple[str, ...], as_json: bool,
) -> None:
    """Show a pattern; save it as a drawing or print it full size."""
    with open_record(desk) as stash:
        kept = patterns.kept(stash, name, version)
        graded = [(s.strip(), patterns.kept(stash, n.strip()).pattern)
                  for s, _is, n in (one.partition("=") for one in sizes)]
    pattern = kept.pattern
    saved = save_pattern(pattern, svg, None if graded else dxf, tiled)
    if graded and dxf:
        saved.append(save_sizes(graded, dxf, kept.name))
    value = {
        "pattern": kept.name, "version": kept.version, "source": kept.source,
        **pattern_json(pattern), "pieces": [piece_value(piece) for piece in pattern.pieces],
        "files": saved,
    }
    lines = [_(
        "{name}, version {version}",
        name=kept.name, version=kept.version,
    ), *map(piece_line, pattern.pieces)]
    say(value, "\n".join([*lines, *map(saved_line, saved)]), as_json=as_json)


@command.command()
@click.argument("rows", nargs=-1, required=True, metavar="WIDTH=LENGTH...")
@click.option("--width", help="Only say the length needed at this width.")
@json_option
@pass_desk
def table(desk: Desk, rows: tuple[str, ...], width: str | None, as_json: bool) -> None:
    """Estimate by a printed table of cloth widths and lengths: which cuts are long enough?

    For example 114cm=2.5m 150cm=1.9m.
    """
    if width:
        found = patterns.need_by_table(rows, read_length(width, Quantity.WIDTH, field="width"))
        value = {"length_mm": found.length_mm, "reason": told(found.reason),
                 "fact": found.reason.to_json(), "estimate": True}
        say(value, f"{written.cut_length(found.length_mm)}. {told(found.reason)}", as_json=as_json)
        return
    with open_record(desk) as stash:
        estimate = patterns.estimate_by_table(stash, rows)
    lines = [estimate_line(one) for one in estimate.found if one.spare_mm >= 0]
    text = "\n".join([_("By the printed table, an estimate:"), *lines]) if lines else (
        _("By the printed table, no cut is long enough.")
    )
    aside = [
        {"cut": cut.code, "reason": told(error), "fact": error.fact.to_json()}
        for cut, error in estimate.set_aside
    ]
    candidates = [estimate_value(one) for one in estimate.found]
    say({"estimate": True, "candidates": candidates, "set_aside": aside}, text, as_json=as_json)
