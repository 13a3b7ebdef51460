"""Several sizes in one drawing: told apart by layer or by style of line, chosen by measurements."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from stash.errors import InvalidInput
from stash.quantity import Quantity, read_length

SIZE = re.compile(
    r"(?:(?:size|sizes|taille|gr(?:ö|oe)sse|größe|gr|eu|us|uk|t)[\s._:-]*)?"
    r"(\d{1,3}(?:\s*[-/]\s*\d{1,3})?|x{0,4}[sl]|\d?x[sl]|m)(?=$|[\s:(,;_])(.*)",
    re.I | re.S,
)
MEASURE = re.compile(r"([a-z][a-z _]*?)\s*[=:]?\s+(\d+(?:[.,]\d+)?\s*(?:mm|cm|m|in|\")?)", re.I)
# Common practice, no source: a pattern that is a little small is let out in its seams.
LET_OUT_MM = 10.0


@dataclass(frozen=True)
class SizeInDrawing:
    """One size: what it is called, and the body it is for, mm, where that is known."""

    name: str
    measurements_mm: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class SizeChosen:
    """The size for a body; ``over_mm`` is what the body measures more than the size is for."""

    name: str
    over_mm: Mapping[str, float]


def size_named(text: str) -> SizeInDrawing | None:
    """The size that the name of a layer speaks of: "38", "Size 40 (bust 92 cm)", "XL"."""
    found = SIZE.fullmatch(" ".join(text.split()))
    if found is None:
        return None
    return SizeInDrawing(re.sub(r"\s", "", found.group(1)).upper(), _measures(found.group(2)))


def parse_size_table(text: str) -> tuple[SizeInDrawing, ...]:
    """Sizes from lines such as "38: bust 88 cm, hip 94 cm", apart by line or semicolon."""
    sizes = []
    for line in text.replace(";", "\n").splitlines():
        if not line.strip():
            continue
        name, colon, rest = line.partition(":")
        measures = _measures(rest)
        if not colon or not name.strip() or not measures:
            raise InvalidInput("not_a_size_row", typed=line.strip()[:60], field="sizes")
        named = size_named(name.strip())
        sizes.append(SizeInDrawing(named.name if named else name.strip(), measures))
    return tuple(sizes)


def _measures(text: str) -> dict[str, float]:
    return {
        "_".join(m.group(1).lower().split()):
            read_length(m.group(2), Quantity.BODY, field="sizes")
        for m in MEASURE.finditer(text)
    }


def with_table(
    found: Sequence[SizeInDrawing], table: Sequence[SizeInDrawing]
) -> tuple[SizeInDrawing, ...]:
    """The sizes of a drawing with the measurements of a table.

    A table of as many rows goes by order where the drawing's sizes have no names of their own.
    """
    by_name = {row.name.upper(): row for row in table}
    if table and len(table) == len(found) and not any(s.name.upper() in by_name for s in found):
        return tuple(
            SizeInDrawing(s.name, row.measurements_mm)
            for s, row in zip(found, table, strict=True)
        )
    return tuple(
        SizeInDrawing(s.name, {**s.measurements_mm, **by_name[s.name.upper()].measurements_mm})
        if s.name.upper() in by_name else s for s in found
    )


def choose_size(
    sizes: Sequence[SizeInDrawing], measured_mm: Mapping[str, float]
) -> SizeChosen:
    """The smallest size that no girth of the body exceeds by more than can be let out.

    The largest where every one is too small. InvalidInput when the sizes say nothing that was
    measured.
    """
    body = {**measured_mm}
    if "chest" in body:
        body.setdefault("bust", body["chest"])
    told = [s for s in sizes if set(s.measurements_mm) & set(body)]
    if not told:
        raise InvalidInput(
            "size_table_wanted", known=tuple(s.name for s in sizes), field="sizes"
        )
    ordered = sorted(told, key=lambda s: sum(s.measurements_mm.values()))
    for size in ordered:
        over = _over(size, body)
        if max(over.values()) <= LET_OUT_MM:
            return SizeChosen(size.name, over)
    return SizeChosen(ordered[-1].name, _over(ordered[-1], body))


def _over(size: SizeInDrawing, body: Mapping[str, float]) -> dict[str, float]:
    return {
        name: body[name] - mm for name, mm in size.measurements_mm.items() if name in body
    }


def the_one(found: Iterable[str], asked: str | None) -> str | None:
    """The size to read of those in a drawing; None when it has only one.

    InvalidInput when it holds several and none, or another, was asked for.
    """
    names = tuple(found)
    if not names:
        return None
    if asked is None:
        raise InvalidInput("several_sizes", known=names, field="size")
    wanted = re.sub(r"\s", "", asked).upper()
    for name in names:
        if name.upper() == wanted:
            return name
    raise InvalidInput("no_such_size", typed=asked[:30], known=names, field="size")
