"""``lengthwise thread``: metres of thread by stitch class and length of seam."""

from __future__ import annotations

import click

from stash import sentences
from stash.cli.frame import json_option, say
from stash.fact import Fact, Term, fact
from stash.model import Seam
from stash.notions import (
    Setting,
    ThreadUse,
    stitch_class,
    thread_ratio,
    thread_use,
    thread_use_name,
    waste_or_usual,
)
from stash.quantity import Quantity, read_length
from stash.sentences import Reader
from stash.units import System


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
    told = waste_or_usual(waste)
    sentence = sentences.say(_fact(seam, setting, told, use), Reader(System.METRIC))
    say(_value(seam, setting, told, use), sentence, as_json=as_json)


def _mm(text: str | None, field: str) -> float | None:
    return None if text is None else read_length(text, Quantity.STITCH, field=field)


def _value(seam: Seam, setting: Setting, waste: float, use: ThreadUse) -> dict[str, object]:
    stitch, ratio = stitch_class(seam.stitch), thread_ratio(seam.stitch, setting)
    needle, under = _rounded(use.needle_mm), _rounded(use.under_mm)
    return {
        "class": seam.stitch,
        "name": stitch.name,
        "use": thread_use_name(seam.stitch),
        "seam_mm": seam.length_mm,
        "ratio": round(ratio, 4),
        "published_ratio": stitch.ratio,
        "published_per_cm": stitch.ratio_per_cm,
        "waste_pct": waste,
        "without_waste_mm": round(seam.length_mm * ratio, 1),
        "total_mm": round(use.total_mm, 1),
        "thread_mm": round(use.total_mm, 1),
        "needle_mm": needle,
        "looper_mm": None if stitch.locked else under,
        "under_mm": under,
        "spools_at_once": use.spools_at_once,
        "status": stitch.status,
        "source": stitch.source,
        "share_status": stitch.share_status,
        "share_source": stitch.share_source,
    }


def _rounded(mm: float | None) -> float | None:
    return None if mm is None else round(mm, 1)


def _fact(seam: Seam, setting: Setting, waste: float, use: ThreadUse) -> Fact:
    stitch = stitch_class(seam.stitch)
    values = {
        "thread_mm": use.total_mm, "seam_mm": seam.length_mm, "stitch": seam.stitch,
        "name": Term(stitch.name), "ratio": round(thread_ratio(seam.stitch, setting), 2),
        "waste_pct": waste,
    }
    if use.needle_mm is None or use.under_mm is None:
        return fact("thread_taken", **values)
    kind = "thread_taken_bobbin" if stitch.locked else "thread_taken_looper"
    return fact(
        kind, needle_mm=use.needle_mm, under_mm=use.under_mm, count=use.spools_at_once, **values
    )
