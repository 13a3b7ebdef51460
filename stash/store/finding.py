"""Cuts and bins by words and by facets, found and counted in SQLite.

A word is found in the cloth (name, fibres, colours, care, notes), in the code, in the place, or
in the name of its colour; every word must be. A facet is a way to narrow down; its counts say
how many cuts each of its values would leave, the other choices kept.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from stash.cloth_kinds import weight_words
from stash.colours import colour_says, nearest
from stash.reference import table
from stash.store.naming import key_of
from stash.store.search_terms import question, terms

WIDTHS_MM = (0, 1000, 1250, 1430, 10_001)
KNITTED = ("knit top", "leggings")
LENGTHS_MM = (500, 1000, 1500, 2000, 3000)
JOINED = "FROM cut JOIN cloth ON cloth.subject = cut.cloth WHERE cut.gone IS NULL"
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


def _width() -> str:
    names = tuple(f"{low}-{high}" for low, high in zip(WIDTHS_MM, WIDTHS_MM[1:], strict=False))
    return _bands("cut.width_mm", WIDTHS_MM, names)


SINGLE = {
    "fibre": "cloth.fibres", "weight": _weight(), "colour": "colour_family(cloth.colour)",
    "width": _width(), "place": "cut.place",
    "washed": "CASE WHEN cut.washed THEN 'yes' ELSE 'no' END",
    "held": "CASE WHEN cut.holds <> '[]' THEN 'yes' ELSE 'no' END",
}
"""Facets of which a cut has one value; that of fibre is its whole composition."""


def _suits() -> dict[str, str]:
    """Use by use, whether its weight is the best for it (``cloth_weights.csv``) and its making."""
    return {
        row["use"]: f"cloth.mass_gsm BETWEEN {float(row['best_least_gsm'])} AND"
                    f" {float(row['best_most_gsm'])} AND cloth.construction IN"
                    f" ('{'knit' if row['use'] in KNITTED else 'woven'}', '')"
        for row in table("cloth_weights")
    }


MANY = {
    "length": {str(mm): f"cut.length_mm >= {mm}" for mm in LENGTHS_MM},
    "suits": _suits(),
}
"""Facets of which a cut may have several values, each with its condition."""
FACETS = (*SINGLE, *MANY)
OF_CLOTH = ("fibre", "weight", "colour", "suits")
"""What the cloth alone decides."""


def found_cuts(db: Database, query: CutQuery, first: int, most: int) -> CutsFound:
    """One page of the cuts that answer to the query."""
    _functions(db)
    where, values = _where(db, query)
    count, total, longest = db.execute(
        f"SELECT COUNT(*), TOTAL(cut.length_mm), MAX(cut.length_mm) {JOINED} {where}",
        values).fetchone()
    order = ORDERS.get(query.order, ORDERS[""])
    rows = db.execute(
        f"SELECT cut.code {JOINED} {where} ORDER BY {order}, cut.rowid DESC LIMIT ? OFFSET ?",
        [*values, most, first])
    return CutsFound(codes=tuple(code for (code,) in rows), count=count, total_mm=total,
                     longest_mm=longest or 0.0)


def facet_counts(db: Database, query: CutQuery) -> dict[str, Counter[str]]:
    """Of each facet, how many cuts each value would leave, all other choices kept."""
    _functions(db)
    words, values = _of_words(db, query)
    chosen = dict(query.chosen)
    marks, marked = [], []
    for name, value in chosen.items():
        condition, bound = _chosen(name, value)
        marks.append(f"({condition}) AS ok_{name}")
        marked += bound
    marks.append("cut.length_mm >= ? AS ok_least")
    columns = ["cut.cloth AS cloth", "cut.length_mm AS length_mm"]
    columns += [f"{sql} AS {name}" for name, sql in SINGLE.items() if name not in OF_CLOTH]
    found = f"SELECT {', '.join((*columns, *marks))} {JOINED} {words}"
    db.execute("DROP TABLE IF EXISTS temp.found")
    db.execute(f"CREATE TEMP TABLE found AS {found}", [*marked, query.least_mm, *values])
    counts = {name: _counted(db, name, _others(name, chosen)) for name in FACETS
              if name not in OF_CLOTH}
    for others in dict.fromkeys(_others(name, chosen) for name in OF_CLOTH):
        alike = [name for name in OF_CLOTH if _others(name, chosen) == others]
        counts |= _counted_by_cloth(db, alike, others)
    db.execute("DROP TABLE temp.found")
    return {name: counts[name] for name in FACETS}


def found_bins(db: Database, typed: str) -> list[str]:
    """The codes of the bins that are here and hold every word."""
    conditions, values = [], []
    _functions(db)
    for term in terms(typed):
        places = _places(db, "bin", term)
        conditions.append(
            "(bin.code IN (SELECT subject FROM findable WHERE id IN (SELECT rowid FROM findable_fts"
            " WHERE findable_fts MATCH ?)) OR bin.code LIKE ? OR colour_says(bin.colour, ?)"
            f" OR bin.place IN ({', '.join('?' * len(places))}))")
        values += [question(term), f"{term}%", term, *places]
    where = "".join(f" AND {one}" for one in conditions)
    rows = db.execute(
        f"SELECT bin.code FROM bin WHERE bin.gone IS NULL{where} ORDER BY rowid DESC", values)
    return [code for (code,) in rows]


def _others(name: str, chosen: dict[str, str]) -> str:
    """The condition that all choices but this one make."""
    return " AND ".join(("ok_least", *(f"ok_{other}" for other in chosen if other != name)))


def _counted(db: Database, name: str, others: str) -> Counter[str]:
    """How many of the found cuts have each value."""
    counts: Counter[str] = Counter()
    if name == "length":
        sums = ", ".join(f"SUM(length_mm >= {mm})" for mm in MANY[name])
        row = db.execute(f"SELECT {sums} FROM found WHERE {others}").fetchone()
        counts.update(dict(zip(MANY[name], (number or 0 for number in row), strict=True)))
        return counts
    rows = db.execute(f"SELECT {name}, COUNT(*) FROM found WHERE {others}"
                      f" AND {name} IS NOT NULL GROUP BY {name}")
    counts.update(dict(rows.fetchall()))
    return counts


def _counted_by_cloth(db: Database, names: list[str], others: str) -> dict[str, Counter[str]]:
    """As ``_counted`` for what a cloth decides: asked once a cloth, and for all names at once."""
    ways = {name: list(MANY[name].values() if name in MANY else (SINGLE[name],)) for name in names}
    asked = ", ".join(f"({sql})" for name in names for sql in ways[name])
    by_cloth = f"SELECT cloth AS subject, COUNT(*) AS number FROM found WHERE {others} GROUP BY 1"
    alike = ", ".join(str(n) for n in range(2, 2 + sum(map(len, ways.values()))))
    rows = db.execute(f"SELECT SUM(number), {asked} FROM ({by_cloth}) AS had"
                      f" JOIN cloth ON cloth.subject = had.subject GROUP BY {alike}")
    counts: dict[str, Counter[str]] = {name: Counter() for name in names}
    for number, *values in rows:
        for name in names:
            own, values = values[: len(ways[name])], values[len(ways[name]) :]
            for value in _values(name, own):
                counts[name][value] += number
    return counts


def _values(name: str, values: list[Any]) -> Iterator[str]:
    """What a cloth counts for: its uses, each fibre of its composition, else its one value."""
    if name in MANY:
        yield from (use for use, suits in zip(MANY[name], values, strict=True) if suits)
    elif name == "fibre":
        for share in values[0].split("% ")[1:]:
            yield share.rpartition(" ")[0] if share[-1:].isdigit() else share
    elif values[0] is not None:
        yield values[0]


def _where(db: Database, query: CutQuery) -> tuple[str, list[object]]:
    where, values = _of_words(db, query)
    for name, value in query.chosen:
        condition, bound = _chosen(name, value)
        where += f" AND ({condition})"
        values += bound
    if query.least_mm:
        where += " AND cut.length_mm >= ?"
        values.append(query.least_mm)
    return where, values


def _chosen(name: str, value: str) -> tuple[str, list[object]]:
    """The condition of one choice; a value that no cut can have is no cut's."""
    if name == "fibre":
        return "instr(cloth.fibres || ' ', '% ' || ? || ' ') > 0", [value]
    if name in MANY:
        return MANY[name].get(value, "0"), []
    return (f"{SINGLE[name]} IS ?", [value]) if name in SINGLE else ("0", [])


def _of_words(db: Database, query: CutQuery) -> tuple[str, list[object]]:
    where, values = "", list[object]()
    for term in terms(query.words):
        places = _places(db, "cut", term)
        where += (
            " AND (cut.cloth IN (SELECT subject FROM findable WHERE id IN (SELECT rowid FROM"
            " findable_fts WHERE findable_fts MATCH ?)) OR cut.code LIKE ?"
            " OR colour_says(cloth.colour, ?)"
            f" OR cut.place IN ({', '.join('?' * len(places))}))")
        values += [question(term), f"{term}%", term, *places]
    return where, values


def _places(db: Database, kind: str, term: str) -> list[str]:
    """The places whose name has the word in it."""
    rows = db.execute(f"SELECT DISTINCT place FROM {kind} WHERE place IS NOT NULL")
    return [place for (place,) in rows if key_of(term) in key_of(place)]


def _functions(db: Database) -> None:
    """What SQLite asks of colours; each answer is remembered."""
    db.conn.create_function("colour_family", 1, _family, deterministic=True)
    db.conn.create_function(
        "colour_says", 2, lambda colour, word: bool(colour) and colour_says(colour, word),
        deterministic=True)


def _family(colour: str | None) -> str | None:
    return nearest(colour).family if colour and len(colour) == 7 and colour[0] == "#" else None
