"""``lengthwise pattern import``: pieces of a drawing kept as a pattern."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import click

from stash.cli.frame import Desk, json_option, pass_desk
from stash.cli.input import read_file
from stash.cli.instead import only_one
from stash.cli.open_record import open_record
from stash.cli.pattern_said import keep_reading
from stash.workroom import patterns, people


@click.command("import")
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
def command(
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
    reading = patterns.read_pattern(data, units, grain, size)
    if said:
        reading = replace(reading, notes=(said, *reading.notes))
    keep_reading(desk, name or file.stem, reading, file.name, as_json)
