"""Which labels to print: made from the record for codes, a place, or all that changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from labels.content import Label, blank, for_bin, for_cut, for_place
from stash.errors import InvalidInput, NotFound
from stash.model import Code
from stash.sentences import Reader
from stash.units import System, parse_length
from stash.workroom.opening import Stash


def labels_for(record: Stash, codes: Iterable[str], reader: Reader) -> list[Label]:
    """A label for each code; NotFound for one that this stash has never made or met."""
    return [_label(record, Code.parse(code).text, reader) for code in codes]


def in_place(record: Stash, place: str, reader: Reader) -> list[Label]:
    """Labels of everything that lies in a place; NotFound when nothing does."""
    codes = record.places.contents(place)
    if not codes:
        raise NotFound("nothing_lies_in", place=place.strip()[:60])
    return labels_for(record, codes, reader)


def changed(record: Stash, reader: Reader) -> list[Label]:
    """Labels that no longer say what they said when they were printed.

    A blank label that has since been given to something has changed too; another language or
    other units chosen since make no label untrue.
    """
    found = []
    for code, said in record.labels.all_printed().items():
        then = Reader(System(said.get("units", reader.system)), said.get("language", "en"))
        try:
            label = _label(record, code, then)
        except NotFound:
            continue
        if not _says_the_same(as_printed(label, then), said):
            found.append(_label(record, code, reader))
    return found


def as_printed(label: Label, reader: Reader) -> dict[str, str]:
    """What to remember of a printed label and whom it speaks to, so that a change is noticed."""
    words = {"name": label.name, "size": label.size, "fibre": label.fibre,
             "care": label.care, "place": label.place}
    return {"kind": label.kind.value, "units": reader.system.value, "language": reader.language,
            **words}


def _says_the_same(now: Mapping[str, str], then: Mapping[str, Any]) -> bool:
    """Sizes are compared as sizes: in whatever order or unit they were once written."""
    words = {**now, "size": _sides(now["size"])}
    return words == {**now, **then, "size": _sides(str(then.get("size", "")))}


def _sides(size: str) -> tuple[object, ...]:
    try:
        return tuple(sorted(round(parse_length(side) / 10) for side in size.split(" × ")))
    except InvalidInput:  # a button's lignes, an elastic's "wide": compared as they stand
        return (size,)


def _label(record: Stash, code: str, reader: Reader) -> Label:
    reader = replace(reader, unbroken=False)  # what it says is kept, and compared some day
    what = record.labels.state(code)
    if what == "cut":
        return for_cut(record.cuts.get(code), reader)
    if what == "bin":
        return for_bin(record.bins.get(code), reader)
    if what == "place":
        return for_place(code, record.places.get(code).name)
    if what == "blank":
        return blank(code)
    raise NotFound("label_unknown", code=code)
