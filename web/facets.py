"""The ways to narrow the stash down: each facet with its values, how many cuts each leaves."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from flask import url_for

from stash.cloth_kinds import weight_words
from stash.colours import colour_named
from stash.quantity import Quantity
from stash.sentences import quantities
from stash.sentences.quantities import USUAL
from web.formatting import width
from web.request_stash import reader
from web.texts import _, headed

MOST_SHOWN = 12
NAMES = {
    "fibre": "Fibre", "weight": "Weight", "colour": "Colour", "width": "Width", "place": "Place",
    "length": "At least this long", "washed": "Washed", "held": "Promised",
    "suits": "Its weight suits",
}
YES = {"washed": "washed", "held": "held for a plan"}
NO = {"washed": "not washed", "held": "free"}
SUITS = {
    "trousers": "trousers", "jeans": "jeans", "shorts": "shorts", "shirt": "shirts",
    "skirt": "skirts", "flowing": "flowing skirts", "lining": "lining", "dress": "dresses",
    "knit top": "knitted tops", "leggings": "leggings",
}
WIDEST_BAND = 9000


@dataclass(frozen=True)
class FacetValue:
    """One value: its count, and the address that chooses it, or lets go of it when chosen."""

    text: str
    count: int
    url: str
    chosen: bool


@dataclass(frozen=True)
class FacetRow:
    """One facet; ``chosen`` is the value that is, said."""

    key: str
    name: str
    values: list[FacetValue]
    chosen: str


@dataclass(frozen=True)
class FacetChoice:
    """A facet as one field of a form: (value, as it is read, how many it leaves)."""

    key: str
    name: str
    values: list[tuple[str, str, int]]
    chosen: str


def choices(
    counts: dict[str, Counter[str]], asked: dict[str, str], total: int
) -> list[FacetChoice]:
    """Those of the facets that tell something apart among so many, or are chosen."""
    fields = []
    for key, counted in counts.items():
        chosen = asked.get(key, "")
        values = [one for one in _in_order(key, counted) if counted[one]]
        if chosen and chosen not in values:
            values.append(chosen)
        if chosen or any(counted[one] < total for one in values):
            fields.append(FacetChoice(key, _(NAMES[key]), [
                (one, said(key, one), counted[one]) for one in values], chosen))
    return fields


def facets(counts: dict[str, Counter[str]], asked: dict[str, str]) -> list[FacetRow]:
    """The facets that can narrow down what was found."""
    rows = [_row(key, counts[key], asked) for key in NAMES]
    return [row for row in rows if row.chosen or len(row.values) > 1]


def _row(key: str, counted: Counter[str], asked: dict[str, str]) -> FacetRow:
    chosen = asked.get(key, "")
    values = [one for one in _in_order(key, counted) if counted[one] or one == chosen]
    if chosen and chosen not in values:
        values.insert(0, chosen)
    if len(values) > MOST_SHOWN:
        often = {one for one, _count in counted.most_common(MOST_SHOWN)} | {chosen}
        values = [one for one in values if one in often]
    return FacetRow(key, _(NAMES[key]), [
        FacetValue(said(key, one), counted[one], _address(key, one, asked), one == chosen)
        for one in values], said(key, chosen) if chosen else "")


def _in_order(key: str, counted: Counter[str]) -> list[str]:
    """Weights from light to heavy, lengths and widths from small to large, places by name."""
    if key == "weight":
        return [one.word for one in weight_words() if one.word in counted]
    if key in ("length", "width"):
        return sorted(counted, key=lambda one: float(one.partition("-")[0] or 0))
    if key == "place":
        return sorted(counted, key=str.casefold)
    return [one for one, _count in counted.most_common()]


def _address(key: str, value: str, asked: dict[str, str]) -> str:
    kept = {name: given for name, given in asked.items() if name not in (key, "first")}
    return url_for("home.show", **kept) if asked.get(key) == value else (
        url_for("home.show", **kept | {key: value}))


def said(key: str, value: str) -> str:
    """A value as it is read."""
    match key:
        case "fibre":
            return headed(_(USUAL.get(value, value)))
        case "weight":
            return _(value)
        case "colour":
            return _colour(value)
        case "width":
            return _band(value)
        case "length":
            return quantities.shown(_number(value), Quantity.CUT_LENGTH, reader())
        case "suits":
            return _(SUITS.get(value, value))
        case "washed" | "held":
            return _((YES if value == "yes" else NO)[key])
    return value


def _colour(value: str) -> str:
    try:
        return colour_named(value).said(reader().language)
    except StopIteration:
        return value


def _number(value: str) -> float:
    return float(value) if value.isdecimal() else 0.0


def _band(value: str) -> str:
    low, high = (_number(part) for part in (*value.split("-"), "")[:2])
    if not low:
        return _("under %(width)s", width=width(high))
    if high > WIDEST_BAND:
        return _("%(width)s and wider", width=width(low))
    return _("%(low)s to %(high)s", low=width(low), high=width(high))
