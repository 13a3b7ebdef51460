"""What the ledger adds up to, kept in tables so that nobody has to add it up again."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

from stash.ledger import BinHold, BinState, CutHold, CutState, FoldedState
from stash.model import Cloth, Notion, Outline
from stash.model.exact import from_plain, to_plain
from stash.model.outline import SelvedgeLine
from stash.store import words
from stash.store.database import Database

AnyHold = TypeVar("AnyHold", CutHold, BinHold)

CUT_COLUMNS = (
    "code", "cloth", "outline", "washed", "place", "acquired", "keep_for", "came_from",
    "gone", "holds", "length_mm", "width_mm", "area_mm2", "lent", "selvedges",
    "width_presumed",
)
BIN_COLUMNS = (
    "code", "notion", "amount", "place", "gone", "holds", "kind", "name", "size_mm", "colour",
)


def read(db: Database, subject: str) -> FoldedState | None:
    """The state of one subject, or None when nothing is recorded under it."""
    if ":" in subject:
        table = "cloth" if subject.startswith("cloth:") else "record"
        row = _row(db, f"SELECT record FROM {table} WHERE subject = ?", subject)
        return json.loads(row[0]) if row else None
    if row := _row(db, f"SELECT {', '.join(CUT_COLUMNS)} FROM cut WHERE code = ?", subject):
        return cut_state(row)
    if row := _row(db, f"SELECT {', '.join(BIN_COLUMNS)} FROM bin WHERE code = ?", subject):
        return bin_state(row)
    return None


def write(db: Database, subject: str, state: FoldedState | None) -> None:
    """Put the state in the place of what stood there; None takes it away."""
    if isinstance(state, CutState):
        _replace(db, "cut", CUT_COLUMNS, _cut_row(subject, state))
    elif isinstance(state, BinState):
        _replace(db, "bin", BIN_COLUMNS, _bin_row(subject, state))
        words.write(db, subject, words.of_notion(state.notion))
    elif state is not None:
        _write_record(db, subject, state)
    else:
        _remove(db, subject)


def everything(db: Database) -> Iterator[tuple[str, FoldedState]]:
    """Every subject with its state, for comparing with a replay."""
    for row in db.execute(f"SELECT {', '.join(CUT_COLUMNS)} FROM cut"):
        yield row[0], cut_state(row)
    for row in db.execute(f"SELECT {', '.join(BIN_COLUMNS)} FROM bin"):
        yield row[0], bin_state(row)
    for table in ("cloth", "record"):
        for subject, record in db.execute(f"SELECT subject, record FROM {table}"):
            yield subject, json.loads(record)


def empty(db: Database) -> None:
    """Forget everything that can be worked out again from the ledger."""
    for table in ("cut", "bin", "cloth", "record", "findable"):
        db.execute(f"DELETE FROM {table}")


def cut_state(row: tuple[Any, ...]) -> CutState:
    """The state in a row of CUT_COLUMNS."""
    return CutState(
        cloth=row[1],
        outline=Outline.from_json(json.loads(row[2])),
        washed=bool(row[3]),
        place=row[4],
        acquired=row[5],
        keep_for=row[6],
        came_from=row[7],
        gone=row[8],
        holds=_holds(CutHold, row[9]),
        lent=row[13],
        selvedges_mm=from_plain(tuple[SelvedgeLine, ...], json.loads(row[14])),
        width_presumed=bool(row[15]),
    )


def bin_state(row: tuple[Any, ...]) -> BinState:
    """The state in a row of BIN_COLUMNS."""
    return BinState(
        notion=from_plain(Notion, json.loads(row[1])),
        amount=row[2],
        place=row[3],
        gone=row[4],
        holds=_holds(BinHold, row[5]),
    )


def plain_text(value: object) -> str:
    """Compact JSON of any value of the model."""
    return json.dumps(to_plain(value), ensure_ascii=False, allow_nan=False,
                      separators=(",", ":"))


def _holds(kind: type[AnyHold], text: str) -> tuple[AnyHold, ...]:
    return tuple(from_plain(kind, hold) for hold in json.loads(text))


def _cut_row(code: str, state: CutState) -> tuple[Any, ...]:
    outline = state.outline
    text = json.dumps(outline.to_json(), separators=(",", ":"))
    return (
        code, state.cloth, text, int(state.washed), state.place, state.acquired,
        state.keep_for, state.came_from, state.gone, plain_text(state.holds),
        outline.length_mm, outline.width_mm, outline.area_mm2, state.lent,
        plain_text(state.selvedges_mm), int(state.width_presumed),
    )


def _bin_row(code: str, state: BinState) -> tuple[Any, ...]:
    notion = state.notion
    return (
        code, plain_text(notion), float(state.amount), state.place, state.gone,
        plain_text(state.holds), notion.kind.value, notion.name, notion.size_mm, notion.colour,
    )


def _write_record(db: Database, subject: str, record: Mapping[str, Any]) -> None:
    noun = subject.partition(":")[0]
    if noun != "cloth":
        _replace(db, "record", ("subject", "noun", "record"), (subject, noun, plain_text(record)))
        return
    cloth = from_plain(Cloth, record)
    fibres = " ".join(f"{share.percent:g}% {share.fibre}" for share in cloth.fibres)
    colour = cloth.colours[0] if cloth.colours else None
    _replace(
        db, "cloth",
        ("subject", "name", "construction", "mass_gsm", "colour", "fibres", "record"),
        (
            subject, cloth.name, cloth.construction.value if cloth.construction else "",
            cloth.mass_gsm, colour, fibres, plain_text(record),
        ),
    )
    words.write(db, subject, words.of_cloth(cloth))


def _remove(db: Database, subject: str) -> None:
    if ":" not in subject:
        db.execute("DELETE FROM cut WHERE code = ?", (subject,))
        db.execute("DELETE FROM bin WHERE code = ?", (subject,))
    elif subject.startswith("cloth:"):
        db.execute("DELETE FROM cloth WHERE subject = ?", (subject,))
    else:
        db.execute("DELETE FROM record WHERE subject = ?", (subject,))
    words.write(db, subject, "")


def _replace(db: Database, table: str, columns: tuple[str, ...], values: tuple[Any, ...]) -> None:
    """Insert or update; the first column is the key, and the row keeps its place in the order.

    Only what is another value is set: an index is written anew for each column that is set.
    """
    key = columns[0]
    kept = _row(db, f"SELECT {', '.join(columns)} FROM {table} WHERE {key} = ?", values[0])
    if kept is None:
        marks = ", ".join("?" * len(values))
        db.execute(f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({marks})", values)
        return
    news = [(name, value) for name, was, value in zip(columns, kept, values, strict=True)
            if was != value]
    if news:
        settings = ", ".join(f"{name} = ?" for name, _ in news)
        db.execute(f"UPDATE {table} SET {settings} WHERE {key} = ?",
                   [*(value for _, value in news), values[0]])


def _row(db: Database, sql: str, *values: object) -> tuple[Any, ...] | None:
    row: tuple[Any, ...] | None = db.execute(sql, values).fetchone()
    return row
