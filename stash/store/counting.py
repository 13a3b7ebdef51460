"""Of each facet, how many cuts each of its values would leave, all other choices kept.

Counted when it is asked for, from an index that has what is counted and nothing else: a number
that is kept beside the record could be wrong, and this takes a twentieth of a second at
100,000 cuts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from stash.store.conditions import (
    FACETS,
    HELD,
    LENGTHS_MM,
    OF_CLOTH,
    SUITS,
    WEIGHT,
    WIDTH_BANDS,
    WIDTHS_MM,
    Condition,
    family,
)
from stash.store.finding import CutQuery, Worded, narrowed

FacetCounts = dict[str, Counter[str]]
SUMS = {
    "width": [f"SUM(cut.width_mm < {edge})" for edge in WIDTHS_MM[1:]],
    "washed": ["SUM(cut.washed <> 0)", "COUNT(*)"],
    "held": [f"SUM({HELD})", "COUNT(*)"],
    "length": [f"SUM(cut.length_mm >= {mm})" for mm in LENGTHS_MM],
}
"""What is summed up of the facets that have few values, all in one look at each cut."""


def facet_counts(here: Worded, query: CutQuery) -> FacetCounts:
    """The counts by facet and value; values that leave none may be missing."""
    chosen = [name for name in dict(query.chosen) if name in FACETS]
    counts = _counted(here, [name for name in FACETS if name not in chosen],
                      narrowed(here.db, query))
    for name in chosen:
        counts |= _counted(here, [name], narrowed(here.db, query, but=name))
    return {name: counts[name] for name in FACETS}


def _counted(here: Worded, names: Sequence[str], condition: Condition) -> FacetCounts:
    counts: FacetCounts = {}
    if summed := [name for name in names if name in SUMS]:
        counts |= _summed(here, summed, condition)
    if "place" in names:
        counts["place"] = _by_place(here, condition)
    if of_cloth := [name for name in names if name in OF_CLOTH]:
        counts |= _by_cloth(here, of_cloth, condition)
    return counts


def _summed(here: Worded, names: Sequence[str], condition: Condition) -> FacetCounts:
    asked = ", ".join(sql for name in names for sql in SUMS[name])
    row = here.db.execute(f"SELECT {asked} {here.among(condition)}",
                          list(condition.values)).fetchone()
    counts, numbers = {}, [number or 0 for number in row]
    for name in names:
        own, numbers = numbers[: len(SUMS[name])], numbers[len(SUMS[name]) :]
        counts[name] = Counter(_of_sums(name, own))
    return counts


def _of_sums(name: str, own: list[int]) -> dict[str, int]:
    if name == "length":
        return {str(mm): number for mm, number in zip(LENGTHS_MM, own, strict=True)}
    if name == "width":
        bands = zip(WIDTH_BANDS, (0, *own), own, strict=False)
        found = {band: number - narrower for band, narrower, number in bands}
    else:
        found = {"yes": own[0], "no": own[1] - own[0]}
    return {value: number for value, number in found.items() if number}


def _by_place(here: Worded, condition: Condition) -> Counter[str]:
    # By the index of places alone where nothing else is asked, else not by that one.
    place = "+cut.place" if condition.sql else "cut.place"
    rows = here.db.execute(f"SELECT cut.place, COUNT(*) {here.among(condition)} GROUP BY {place}",
                           list(condition.values))
    return Counter({place: number for place, number in rows if place is not None})


def _by_cloth(here: Worded, names: Sequence[str], condition: Condition) -> FacetCounts:
    """What the cloth decides, asked once of all cloths that are alike in it."""
    uses = ", ".join(f"({sql})" for sql in SUITS.values())
    rows = here.db.execute(
        "WITH had AS (SELECT cut.cloth AS subject, COUNT(*) AS number"
        f" {here.among(condition)} GROUP BY cut.cloth)"
        f" SELECT number, fibres, {WEIGHT}, colour, {uses} FROM ("
        "SELECT SUM(had.number) AS number, kept.mass_gsm, kept.construction, kept.colour,"
        " kept.fibres FROM had CROSS JOIN cloth AS kept ON kept.subject = had.subject"
        " GROUP BY 2, 3, 4, 5) AS cloth", list(condition.values))
    counts: FacetCounts = {name: Counter() for name in names}
    for number, fibres, weight, colour, *suits in rows:
        values = {"fibre": _fibres(fibres), "weight": (weight,), "colour": (family(colour),),
                  "suits": [use for use, does in zip(SUITS, suits, strict=True) if does]}
        for name in names:
            for value in values[name]:
                if value is not None:
                    counts[name][value] += number
    return counts


def _fibres(composition: str) -> Iterator[str]:
    """Each fibre of "60% flax 40% virgin wool"."""
    for share in composition.split("% ")[1:]:
        yield share.rpartition(" ")[0] if share[-1:].isdigit() else share
