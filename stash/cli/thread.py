"""``lengthwise thread``: metres of thread by stitch class and length of seam."""

from __future__ import annotations

import click

from stash.cli.frame import json_option, say
from stash.model import Seam
from stash.notions import Setting, ThreadUse, stitch_class, thread_ratio, thread_use
from stash.quantity import Quantity, read_length
from stash.units import format_length


@click.command()
@click.option("--class", "number", default="301", show_default=True, help="ISO 4915 class.")
@click.option("--seam", "seams", required=True, multiple=True, help="A length; may be repeated.")
@click.option("--thickness", help="Thickness of the cloth in the seam, for example 0.8mm.")
@click.option("--stitch-length", help="Length of one stitch, for example 2.5mm.")
@click.option("--width", help="Width of the stitch, for example 5mm.")
@click.option("--waste", type=click.FloatRange(0, 100), help="Waste in percent [default: 15].")
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
    seam = Seam("all", sum(read_length(s, Quantity.PATTERN, field="seam") for s in seams), number)
    use = thread_use(seam, setting, waste)
    ratio = thread_ratio(number, setting)
    say(_value(seam, ratio, use), _text(seam, ratio, use), as_json=as_json)


def _mm(text: str | None, field: str) -> float | None:
    return None if text is None else read_length(text, Quantity.STITCH, field=field)


def _value(seam: Seam, ratio: float, use: ThreadUse) -> dict:
    stitch = stitch_class(seam.stitch)
    return {
        "class": seam.stitch,
        "name": stitch.name,
        "seam_mm": seam.length_mm,
        "ratio": round(ratio, 4),
        "published_ratio": stitch.ratio,
        "without_waste_mm": round(seam.length_mm * ratio, 1),
        "thread_mm": round(use.total_mm, 1),
        "needle_mm": None if use.needle_mm is None else round(use.needle_mm, 1),
        "under_mm": None if use.under_mm is None else round(use.under_mm, 1),
        "source": stitch.source,
    }


def _text(seam: Seam, ratio: float, use: ThreadUse) -> str:
    split = (
        f" ({format_length(use.needle_mm)} needle, {format_length(use.under_mm)} under)"
        if use.needle_mm is not None and use.under_mm is not None
        else ""
    )
    return (
        f"{format_length(use.total_mm)} of thread{split} for {format_length(seam.length_mm)} of "
        f"{stitch_class(seam.stitch).name} ({seam.stitch}), {ratio:.2f} times the seam, "
        "waste included."
    )
