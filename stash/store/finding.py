"""Cuts and bins by words and by facets, found in SQLite.

A word is found in the cloth (name, fibres, colours, care, notes), in the code, in the place, or
in the name of its colour; every word must be. A facet is a way to narrow down.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from stash.store.conditions import (
    FACETS,
    Condition,
    all_of,
    chosen,
    colours_said,
    of_words,
    places_said,
)
from stash.store.database import Database
from stash.store.search_terms import question, terms

__all__ = ["FACETS", "CutQuery", "CutsFound", "Worded", "found_bins", "found_cuts", "worded"]

ORDERS = {
    "": "cut.place IS NULL, cut.place, cut.length_mm DESC",
    "longest": "cut.length_mm DESC",
    "shortest": "cut.length_mm",
    "name": "lower(cloth.name), cut.length_mm DESC",
    "oldest": "cut.acquired IS NULL, cut.acquired",
    "newest": "cut.rowid DESC",
    "heaviest": "coalesce(cloth.mass_gsm, 0) DESC",
}
"""By the key that is asked for; the first is what an unknown key gets."""


@dataclass(frozen=True, kw_only=True)
class CutQuery:
    """What is looked for; ``chosen`` are (facet, value), ``least_mm`` the least length."""

    words: str = ""
    chosen: tuple[tuple[str, str], ...] = ()
    least_mm: float = 0.0
    order: str = ""


@dataclass(frozen=True, kw_only=True)
class CutsFound:
    """The codes of one page of them, and of all of them the number, length and longest."""

    codes: tuple[str, ...]
    count: int
    total_mm: float
    longest_mm: float


@dataclass(frozen=True)
class Worded:
    """The cuts that hold the words of a query, to be read as ``cut``: ``table`` is an SQL name."""

    db: Database
    table: str

    def among(self, condition: Condition) -> str:
        """What comes after a SELECT: those that are here and for which the condition is true."""
        return f"FROM {self.table} WHERE cut.gone IS NULL{condition.further}"


@contextmanager
def worded(db: Database, query: CutQuery) -> Iterator[Worded]:
    """The cuts that hold every word, found once for all that is asked of them inside."""
    words = of_words(db, query.words)
    if not words.sql:
        yield Worded(db, "cut")
        return
    db.execute("DROP TABLE IF EXISTS temp.worded")
    db.execute(
        "CREATE TEMP TABLE worded AS SELECT cut.rowid AS rowid, cloth, length_mm, width_mm, washed,"
        f" place, acquired, code, gone FROM cut WHERE gone IS NULL{words.further}",
        list(words.values))
    try:
        yield Worded(db, "temp.worded AS cut")
    finally:
        db.execute("DROP TABLE temp.worded")


def narrowed(db: Database, query: CutQuery, *, but: str = "") -> Condition:
    """All that the query asks for beside words; ``but`` is a facet that is left open."""
    least = Condition("cut.length_mm >= ?", (query.least_mm,)) if query.least_mm else Condition()
    return all_of((least, *(chosen(db, *one) for one in query.chosen if one[0] != but)))


def found_cuts(here: Worded, query: CutQuery, first: int, most: int) -> CutsFound:
    """One page of the cuts that answer to the query."""
    condition = narrowed(here.db, query)
    count, total, longest = here.db.execute(
        f"SELECT COUNT(*), TOTAL(cut.length_mm), MAX(cut.length_mm) {here.among(condition)}",
        list(condition.values)).fetchone()
    order = ORDERS.get(query.order, ORDERS[""])
    table = here.table + (
        " JOIN cloth ON cloth.subject = cut.cloth" if "cloth." in order else "")
    rows = here.db.execute(
        f"SELECT cut.code {Worded(here.db, table).among(condition)}"
        f" ORDER BY {order}, cut.rowid DESC LIMIT ? OFFSET ?",
        [*condition.values, most, first]) if most and count else ()
    return CutsFound(codes=tuple(code for (code,) in rows), count=count, total_mm=total,
                     longest_mm=longest or 0.0)


def found_bins(
    db: Database, typed: str, size_said: Callable[[float], str] = lambda _mm: ""
) -> dict[str, str]:
    """The kind of each bin that is here and holds every word, by its code, the newest first.

    A word is found in parts of the words too, and in the size as ``size_said`` says it.
    """
    words = terms(typed)
    said, sizes = places_said(db, "bin", words), _sizes_said(db, words, size_said)
    condition = all_of(Condition(
        "+bin.code IN (SELECT subject FROM findable WHERE instr(text, ?) UNION ALL"
        " SELECT subject FROM findable WHERE id IN (SELECT rowid FROM findable_fts"
        " WHERE findable_fts MATCH ?)) OR instr(bin.code, ?)"
        " OR +bin.colour IN (SELECT value FROM json_each(?))"
        " OR +bin.place IN (SELECT value FROM json_each(?))"
        " OR +bin.size_mm IN (SELECT value FROM json_each(?))",
        (word, question(word), word.upper(), colours_said(db, "bin", word), said[word],
         sizes[word])) for word in words)
    return dict(db.execute(
        f"SELECT code, kind FROM bin WHERE gone IS NULL{condition.further} ORDER BY rowid DESC",
        list(condition.values)).fetchall())


def _sizes_said(
    db: Database, words: list[str], said: Callable[[float], str]
) -> dict[str, str]:
    """Word by word, the JSON list of the sizes on record that are said with it."""
    rows = db.execute("SELECT DISTINCT size_mm FROM bin WHERE gone IS NULL AND size_mm > 0"
                      ).fetchall() if words else []
    sizes = [(mm, said(mm).casefold()) for (mm,) in rows]
    return {word: json.dumps([mm for mm, text in sizes if word in text]) for word in words}
