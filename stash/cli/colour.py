"""``lengthwise colour``: the colour of cloth, thread or a button in a photograph."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.frame import json_option, say, told
from stash.cli.input import read_file
from stash.cli.words import _


@click.command("colour")
@click.argument("photo", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--at", "places", multiple=True, metavar="X,Y",
              help="The place in pixels; twice to compare two things in one picture.")
@json_option
def command(photo: Path, places: tuple[str, ...], as_json: bool) -> None:
    """Tell the colour in a PHOTO with a calibration sheet or the tray in it, and how sure it is."""
    from stash.workroom.measuring import apart_in, colours_in, light_said, read_pixel

    data, spots = read_file(photo), [read_pixel(place) for place in places]
    found = colours_in(data, spots)
    first = found[0]
    value: dict[str, object] = {
        "colour": first.colour, "error_de00": first.error_de00, "light": first.light.value}
    lines = [_(
        "{colour}. {light}",
        colour=first.colour,
        light=told(light_said(first)),
    )]
    if len(spots) == 2:
        apart, error = apart_in(data, spots[0], spots[1])
        value |= {"other_colour": found[1].colour, "apart_de00": round(apart, 1),
                  "apart_error_de00": error}
        lines.append(_(
            "The two differ by {apart}, give or take {error}.",
            apart=round(apart, 1), error=round(error),
        ))
    say(value, "\n".join(lines), as_json=as_json)
