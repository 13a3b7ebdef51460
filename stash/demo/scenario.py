"""The Heron Loft, read from the CSV files beside this one. Invented from end to end."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from importlib.resources import files

from stash.model import (
    Bin,
    Cloth,
    Construction,
    Cut,
    FibreShare,
    Notion,
    NotionKind,
    Outline,
    Person,
    Repeat,
    ShrinkStatus,
)
from stash.units import parse_length


@dataclass(frozen=True)
class Scenario:
    """Everything the loft owns and clothes; ``weaves`` says how a cloth's swatch is drawn."""

    cuts: tuple[Cut, ...]
    bins: tuple[Bin, ...]
    people: tuple[Person, ...]
    weaves: dict[str, str]


def heron_loft() -> Scenario:
    """The scenario as values; codes are left empty for the store to give."""
    rows = _rows("cloths.csv")
    cloths = {row["key"]: _cloth(row) for row in rows}
    return Scenario(
        cuts=tuple(_cut(row, cloths[row["cloth"]]) for row in _rows("cuts.csv")),
        bins=tuple(_bin(row) for row in _rows("bins.csv")),
        people=tuple(_person(row) for row in _rows("people.csv")),
        weaves={row["name"]: row["weave"] for row in rows},
    )


def _rows(name: str) -> list[dict[str, str]]:
    text = files("stash.demo").joinpath(name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def _cloth(row: dict[str, str]) -> Cloth:
    shares = re.findall(r"([a-z]+)(?: (\d+))?", row["fibres"])
    return Cloth(
        name=row["name"],
        construction=Construction(row["construction"]),
        fibres=tuple(FibreShare(fibre, float(percent)) for fibre, percent in shares),
        mass_gsm=float(row["mass"]),
        one_way=bool(row["one_way"]),
        pile=bool(row["pile"]),
        repeat=_repeat(row),
        stretch_across_pct=float(row["stretch_across"]),
        shrink_along_pct=float(row["shrink_along"]),
        shrink_across_pct=float(row["shrink_across"]),
        shrink_status=ShrinkStatus.MEASURED,
        opaque=row["opaque"] == "yes",
        colours=tuple(row["colours"].split()),
        care=row["care"],
        dry_clean_only=bool(row["dry_clean_only"]),
        price_minor_per_m=int(row["price"]),
    )


def _repeat(row: dict[str, str]) -> Repeat | None:
    along, across = row["repeat_along"], row["repeat_across"]
    if not (along or across):
        return None
    return Repeat(
        lengthwise_mm=float(along) if along else None,
        crosswise_mm=float(across) if across else None,
        half_drop=bool(row["half_drop"]),
    )


def _cut(row: dict[str, str], cloth: Cloth) -> Cut:
    length, width = parse_length(row["length"]), parse_length(row["width"])
    return Cut(
        code="",
        cloth=cloth,
        outline=_outline(length, width, row["shape"]),
        washed=row["washed"] == "yes",
        place=row["place"],
        acquired=row["acquired"],
        keep_for=row["keep_for"] or None,
    )


def _outline(length: float, width: float, shape: str) -> Outline:
    """A rectangle, or what was left of one: a corner gone, a notch in the edge, a flaw."""
    sizes = [parse_length(size) for size in re.findall(r"\d+ cm", shape)]
    if shape.startswith("corner"):
        along, across = sizes
        return Outline((
            (0, 0), (length, 0), (length, width - across),
            (length - along, width - across), (length - along, width), (0, width),
        ))
    if shape.startswith("notch"):
        along, across = sizes
        start = (length - along) / 2
        return Outline((
            (0, 0), (start, 0), (start, across), (start + along, across),
            (start + along, 0), (length, 0), (length, width), (0, width),
        ))
    if shape.startswith("flaw"):
        x, y, side = sizes
        return Outline(
            Outline.rectangle(length, width).ring_mm,
            (((x, y), (x + side, y), (x + side, y + side), (x, y + side)),),
        )
    return Outline.rectangle(length, width)


def _bin(row: dict[str, str]) -> Bin:
    kind = NotionKind(row["kind"])
    return Bin(
        code="",
        notion=Notion(
            kind=kind,
            name=row["name"],
            size_mm=parse_length(row["size"]) if row["size"] else None,
            colour=row["colour"],
            material=row["material"],
            fusible=bool(row["fusible"]),
            shortenable=bool(row["shortenable"]),
            mass_gsm=float(row["mass"]) if row["mass"] else None,
            notes=row["notes"],
        ),
        amount=float(row["amount"]) if kind.counted else parse_length(row["amount"]),
        place=row["place"],
    )


def _person(row: dict[str, str]) -> Person:
    measures = re.findall(r"(\w+)=(\d+ cm)", row["measurements"])
    return Person(
        name=row["name"],
        body=row["body"],
        measurements_mm={key: parse_length(value) for key, value in measures},
    )
