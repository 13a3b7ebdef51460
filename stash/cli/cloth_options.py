"""The options that describe a cloth on the command line."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

import click

from stash.colours import read_colour
from stash.errors import InvalidInput
from stash.fibres import parse_composition
from stash.model import Cloth, Construction, Repeat, ShrinkStatus
from stash.quantity import Quantity, read_size
from stash.units import parse_mass

Command = Callable[..., None]

OPTIONS = (
    click.option("--fibres", default="", help="For example “55% linen 45% cotton”."),
    click.option(
        "--construction", type=click.Choice([c.value for c in Construction]),
        help="How the cloth is made; left out where it is not known.",
    ),
    click.option("--mass", help="Its weight, for example 180 g/m2."),
    click.option("--one-way", is_flag=True, help="Nap or print: all pieces must point one way."),
    click.option("--pile/--no-pile", "pile", default=None,
                 help="Pile shades when it is turned; left out where it is not known."),
    click.option("--repeat", help="The print recurs after, lengthwise x crosswise: 64cm x 32cm."),
    click.option("--half-drop", is_flag=True, help="The repeat is dropped by half."),
    click.option("--stretch", default="0",
                 help="In per cent: 40 across, or along x across: 20x40."),
    click.option("--shrink", help="In the wash, as measured, in per cent: 4, or along x across."),
    click.option("--opaque/--sheer", "opaque", default=None, help="Whether one can see through."),
    click.option("--colour", "colours", multiple=True,
                 help="By its name or like #7a1f2b; may be repeated."),
    click.option("--price", help="For a metre, for example 18.50."),
    click.option("--care", default="", help="How it is washed and ironed."),
    click.option("--dry-clean-only/--washable", "dry_clean_only", default=None,
                 help="Whether it may be washed at all."),
    click.option("--notes", default="", help="Anything else."),
)


def cloth_options(function: Command) -> Command:
    """Give a command all options that describe a cloth."""
    for option in reversed(OPTIONS):
        function = option(function)
    return function


def cloth_from(name: str, typed: Mapping[str, Any]) -> Cloth:
    """The cloth that those options describe; InvalidInput names the one that cannot be."""
    measured = typed.get("shrink") is not None
    along, across = _shrinkage(str(typed["shrink"])) if measured else (0.0, 0.0)
    stretch_along, stretch_across = _stretch(str(typed["stretch"]))
    return Cloth(
        name=" ".join(name.split()),
        construction=Construction(str(typed["construction"])) if typed["construction"] else None,
        fibres=parse_composition(str(typed["fibres"])),
        mass_gsm=parse_mass(str(typed["mass"])) if typed["mass"] else None,
        one_way=bool(typed["one_way"]),
        pile=typed.get("pile"),
        repeat=_repeat(typed["repeat"], bool(typed["half_drop"])),
        stretch_along_pct=stretch_along, stretch_across_pct=stretch_across,
        shrink_along_pct=along,
        shrink_across_pct=across,
        shrink_status=ShrinkStatus.MEASURED if measured else ShrinkStatus.NONE,
        opaque=typed["opaque"],
        colours=tuple(colour(c) for c in typed["colours"]),
        price_minor_per_m=_price(typed["price"]),
        care=str(typed["care"]),
        dry_clean_only=typed.get("dry_clean_only"),
        notes=str(typed["notes"]),
    )


def percent(text: str, field: str) -> float:
    """A number of per cent, with or without the sign."""
    found = re.fullmatch(r"\s*(-?\d{1,3}(?:[.,]\d+)?)\s*%?\s*", text)
    if not found:
        raise InvalidInput("not_a_percentage", typed=text.strip()[:40], field=field)
    return float(found.group(1).replace(",", "."))


def colour(text: str) -> str:
    """"#7A1F2B", "7a1f2b" or a name, as "dark red", as "#7a1f2b"."""
    return read_colour(text)


def _shrinkage(text: str) -> tuple[float, float]:
    sides = re.split(r"[x×]", text, maxsplit=1)
    along = percent(sides[0], "shrink")
    return along, percent(sides[1], "shrink") if len(sides) > 1 else along


def _stretch(text: str) -> tuple[float, float]:
    """Along and across; one figure alone is across, as a knit is usually measured."""
    sides = re.split(r"[x×]", text, maxsplit=1)
    if len(sides) == 1:
        return 0.0, percent(text, "stretch")
    return percent(sides[0], "stretch"), percent(sides[1], "stretch")


def _repeat(typed: object, half_drop: bool) -> Repeat | None:
    if not typed:
        return None
    text = str(typed)
    both = re.search(r"[x×*]", text, flags=re.IGNORECASE)
    along, across = read_size(
        text if both else f"{text} x 0", Quantity.REPEAT, Quantity.REPEAT, field="repeat")
    return Repeat(lengthwise_mm=along or None, crosswise_mm=across or None, half_drop=half_drop)


def _price(typed: object) -> int | None:
    if not typed:
        return None
    found = re.fullmatch(r"\s*(\d{1,6})(?:[.,](\d{1,2}))?\s*", str(typed))
    if not found:
        raise InvalidInput("not_a_price", typed=str(typed).strip()[:40], field="price")
    return int(found.group(1)) * 100 + int((found.group(2) or "0").ljust(2, "0"))
