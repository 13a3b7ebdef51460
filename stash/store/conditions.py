"""What narrows the cuts down, in SQL: the facets, and the words that are typed.

Every condition is about ``cut`` alone and reads only what the index ``cut_here`` has in it, so
that a stash is looked through without reading its outlines; what a cloth decides is asked of
the cloths first. A plus before a column keeps SQLite from going by another index, which would
fetch each cut.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from stash.cloth_kinds import weight_words
from stash.colours import colour_says, nearest
from stash.reference import table
from stash.store.database import Database
from stash.store.naming import key_of
from stash.store.search_terms import question, terms

WIDTHS_MM = (0, 1000, 1250, 1430, 10_001)
WIDTH_BANDS = tuple(
    f"{low}-{high}" for low, high in zip(WIDTHS_MM, WIDTHS_MM[1:], strict=False))
KNITTED = ("knit top", "leggings")
LENGTHS_MM = (500, 1000, 1500, 2000, 3000)
HELD = "cut.rowid IN (SELECT rowid FROM cut WHERE holds <> '[]')"


def _bands(column: str, edges: tuple[float, ...], names: tuple[str, ...]) -> str:
    cases = " ".join(
        f"WHEN {column} < {edge} THEN '{name}'"
        for edge, name in zip(edges[1:], names, strict=True))
    return f"CASE {cases} END"


def _weight() -> str:
    froms = [float(row["gsm_from"]) for row in table("weight_words")]
    words = tuple(one.word for one in weight_words())
    return ("CASE WHEN cloth.mass_gsm IS NULL THEN NULL ELSE "
            + _bands("cloth.mass_gsm", (0.0, *froms[1:], 10_000.0), words) + " END")


def _suits() -> dict[str, str]:
    """Use by use, whether its weight is the best for it (``cloth_weights.csv``) and its making."""
    return {
        row["use"]: f"cloth.mass_gsm BETWEEN {float(row['best_least_gsm'])} AND"
                    f" {float(row['best_most_gsm'])} AND cloth.construction IN"
                    f" ('{'knit' if row['use'] in KNITTED else 'woven'}', '')"
        for row in table("cloth_weights")
    }


WEIGHT, SUITS = _weight(), _suits()
SINGLE = {
    "fibre": "cloth.fibres", "weight": WEIGHT, "colour": "cloth.colour",
    "width": _bands("cut.width_mm", WIDTHS_MM, WIDTH_BANDS), "place": "cut.place",
    "washed": "CASE WHEN cut.washed THEN 'yes' ELSE 'no' END",
    "held": f"CASE WHEN {HELD} THEN 'yes' ELSE 'no' END",
}
"""Facets of which a cut has one value; that of fibre is its whole composition."""
MANY = {"length": {str(mm): f"cut.length_mm >= {mm}" for mm in LENGTHS_MM}, "suits": SUITS}
"""Facets of which a cut may have several values, each with its condition."""
FACETS = (*SINGLE, *MANY)
OF_CLOTH = ("fibre", "weight", "colour", "suits")
"""What the cloth alone decides."""


@dataclass(frozen=True)
class Condition:
    """A condition in SQL with the values of its marks; an empty one is always true."""

    sql: str = ""
    values: tuple[object, ...] = ()

    @property
    def further(self) -> str:
        """To be put after a WHERE that is there already."""
        return f" AND ({self.sql})" if self.sql else ""


def all_of(conditions: Iterable[Condition]) -> Condition:
    """What is true where each of them is."""
    real = [one for one in conditions if one.sql]
    return Condition(" AND ".join(f"({one.sql})" for one in real),
                     tuple(value for one in real for value in one.values))


def chosen(db: Database, name: str, value: str) -> Condition:
    """The condition of one choice; a value that no cut can have is no cut's."""
    if name == "fibre":
        return _of_cloth("instr(cloth.fibres || ' ', '% ' || ? || ' ') > 0", value)
    if name == "colour":
        return _of_cloth("cloth.colour IN (SELECT value FROM json_each(?))", _colours(
            db, "cloth", lambda colour: family(colour) == value))
    if name == "suits":
        return _of_cloth(SUITS[value]) if value in SUITS else Condition("0")
    if name in MANY:
        return Condition(MANY[name].get(value, "0"))
    if name == "weight":
        return _of_cloth(f"{WEIGHT} IS ?", value)
    return Condition(f"{SINGLE[name]} IS ?", (value,)) if name in SINGLE else Condition("0")


def of_words(db: Database, typed: str) -> Condition:
    """Every word is in the cut's cloth, its colour or its place, or is how its code begins."""
    said = places_said(db, "cut", terms(typed))
    return all_of(Condition(
        "+cut.cloth IN (SELECT subject FROM findable WHERE id IN (SELECT rowid FROM findable_fts"
        " WHERE findable_fts MATCH ?) UNION ALL SELECT subject FROM cloth WHERE colour IN"
        " (SELECT value FROM json_each(?)))"
        " OR +cut.place IN (SELECT value FROM json_each(?))"
        " OR +cut.rowid IN (SELECT rowid FROM cut WHERE code GLOB ?)",
        (question(term), colours_said(db, "cloth", term), places, f"{term.upper()}*"))
        for term, places in said.items())


def places_said(db: Database, kind: str, words: Iterable[str]) -> dict[str, str]:
    """Word by word, the JSON list of the places whose name has the word in it."""
    rows = db.execute(
        f"SELECT DISTINCT place FROM {kind} WHERE gone IS NULL AND place IS NOT NULL"
    ).fetchall() if words else []
    keys = [(place, key_of(place)) for (place,) in rows]
    return {word: json.dumps([place for place, key in keys if key_of(word) in key])
            for word in words}


def colours_said(db: Database, kind: str, word: str) -> str:
    """The JSON list of the colours on record that a word names."""
    return _colours(db, kind, lambda colour: colour_says(colour, word))


def family(colour: str | None) -> str | None:
    """The plain colour that it is a kind of; None of what is no "#rrggbb"."""
    return nearest(colour).family if colour and len(colour) == 7 and colour[0] == "#" else None


def _colours(db: Database, kind: str, wanted: Callable[[str], bool]) -> str:
    rows = db.execute(f"SELECT DISTINCT colour FROM {kind} WHERE colour <> ''")
    return json.dumps([colour for (colour,) in rows if wanted(colour)])


def _of_cloth(sql: str, *values: object) -> Condition:
    return Condition(f"cut.cloth IN (SELECT subject FROM cloth WHERE {sql})", values)
