"""Which cuts may be like a wish: by their cloth's weight and colour, and by words, in SQLite.

It narrows down and never decides: whatever :mod:`stash.match.cloth.similar` would find is
among them, so only these need be made into values.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from sqlite_utils import Database

WORDED = (
    "lower(cloth.record || ' ' || coalesce(cut.place, '') || ' ' || coalesce(cut.keep_for, '')"
    " || ' ' || cut.code || ' ' || cloth.construction)")


def colours(db: Database, masses_gsm: tuple[float, float] | None) -> list[tuple[str, str]]:
    """(subject, its colours as a JSON list) of each cloth within these weights."""
    rows = db.execute(
        "SELECT subject, json_extract(record, '$.colours') FROM cloth"
        " WHERE colour IS NOT NULL AND (? IS NULL OR mass_gsm BETWEEN ? AND ?)",
        [*_bounds(masses_gsm)])
    return [(subject, written) for subject, written in rows if written]


def bin_colours(db: Database) -> list[tuple[str, str]]:
    """(code, colour) of each bin that is here and whose colour is on record."""
    return db.execute(
        "SELECT code, colour FROM bin WHERE gone IS NULL AND colour IS NOT NULL").fetchall()


def codes(
    db: Database, masses_gsm: tuple[float, float] | None, words: Sequence[Sequence[str]],
    apart: Mapping[str, float] | None, most: int,
) -> list[str]:
    """The codes of at most so many present cuts that may be meant.

    Of each of the ``words`` one spelling is in what is said of the cut; ``apart`` says how far
    the colour of each cloth is, the nearest first, else the newest come first.
    """
    conditions, values = ["(? IS NULL OR cloth.mass_gsm BETWEEN ? AND ?)"], _bounds(masses_gsm)
    for spellings in words:
        conditions.append("(" + " OR ".join([f"instr({WORDED}, ?)"] * len(spellings)) + ")")
        values += spellings
    joined, order = "", ""
    if apart is not None:
        joined = " JOIN json_each(?) AS near ON near.key = cut.cloth"
        order = "near.value, "
        values = [json.dumps(apart), *values]
    rows = db.execute(
        f"SELECT cut.code FROM cut JOIN cloth ON cloth.subject = cut.cloth{joined}"
        f" WHERE cut.gone IS NULL AND {' AND '.join(conditions)}"
        f" ORDER BY {order}cut.rowid DESC LIMIT ?", [*values, most])
    return [code for (code,) in rows]


def _bounds(masses_gsm: tuple[float, float] | None) -> list[object]:
    return [None, None, None] if masses_gsm is None else [1, *masses_gsm]
