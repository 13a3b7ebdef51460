"""``lengthwise thread``: metres of thread by stitch class and length of seam."""

from __future__ import annotations

import click

from stash import sentences
from stash.cli.frame import FloatRange, json_option, reader, say
from stash.quantity import Quantity, read_length
from stash.workroom.notions import Setting, thread_for


@click.command()
@click.option("--class", "number", default="301", show_default=True, help="ISO 4915 class.")
@click.option("--seam", "seams", required=True, multiple=True, help="A length; may be repeated.")
@click.option("--thickness", help="Thickness of the cloth in the seam, for example 0.8mm.")
@click.option("--stitch-length", help="Length of one stitch, for example 2.5mm.")
@click.option("--width", help="Width of the stitch, for example 5mm.")
@click.option("--waste", type=FloatRange(0, 100), help="Waste in percent [default: 15].")
@json_option
def command(
    number: str, seams: tuple[str, ...], thickness: str | None, stitch_length: str | None,
    width: str | None, waste: float | None, as_json: bool,
) -> None:
    """Thread that seams take, needle and under thread apart."""
    setting = Setting(
        thickness_mm=_mm(thickness, "thickness"),
        stitch_length_mm=_mm(stitch_length, "stitch length"),
        width_mm=_mm(width, "width"),
    )
    seam_mm = sum(read_length(s, Quantity.PATTERN, field="seam") for s in seams)
    found = thread_for(number, seam_mm, setting, waste)
    say(found.to_json(), sentences.say(found.fact(reader().system), reader()), as_json=as_json)


def _mm(text: str | None, field: str) -> float | None:
    return None if text is None else read_length(text, Quantity.STITCH, field=field)
