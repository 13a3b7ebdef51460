"""Rows become cuts and bins: all of them or none, and the same row never twice.

A row with a code is about what carries that code. A row without one is known again by what it
was when it came in (``_remembered``), so that a file that comes twice doubles nothing, whatever
has been cut off since, and only what was changed in the file is changed on record.
"""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from stash.errors import InvalidInput, StashError
from stash.fact import Fact, fact
from stash.ledger import Entry, Event, Kind
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline
from stash.model.exact import to_plain
from stash.spreadsheet.cells import CellTable
from stash.spreadsheet.columns import Headings
from stash.spreadsheet.told import Told, read_told
from stash.store import Stash
from stash.store.naming import key_of
from stash.workroom.cuts import cloth_named
from stash.workroom.spreadsheets.corrections import (
    change_bin,
    change_cut,
    cloth_told,
    notion_told,
)

IDENTITY = {"cut": ("what", "name", "length", "width"),
            "bin": ("what", "name", "size", "colour", "fibres")}


@dataclass(frozen=True, kw_only=True)
class RowFate:
    """What becomes of one row, counted from 1 as a spreadsheet counts: new, same, changed, refused.

    ``says`` is what there is to say of it, ``code`` the label it is about, None where it has none.
    """

    row: int
    fate: str
    says: Fact
    code: str | None = None


@dataclass(frozen=True, kw_only=True)
class BroughtIn:
    """Every row's fate, and the one event that it all is; None where nothing was written."""

    fates: tuple[RowFate, ...]
    event: Event | None = None

    def count(self, fate: str) -> int:
        """How many rows have this fate."""
        return sum(one.fate == fate for one in self.fates)

    @property
    def changing(self) -> int:
        """How many rows change the record."""
        return self.count("new") + self.count("changed")

    @property
    def written(self) -> int:
        """How many rows were written."""
        return self.changing if self.event else 0


class _NotToBeWritten(Exception):
    """Everything was tried, and is to be forgotten again."""


@dataclass
class _Run:
    """One file on its way in: how often each identity was met, what each cloth was told to be."""

    stash: Stash
    met: Counter[str] = field(default_factory=Counter)
    codes: dict[str, int] = field(default_factory=dict)
    cloths: dict[str, tuple[int, Cloth]] = field(default_factory=dict)


def bring_in(
    stash: Stash, table: CellTable, headings: Headings, token: str | None = None, *,
    rehearse: bool = False,
) -> BroughtIn:
    """Write every row, or none when one is refused; with ``rehearse`` tell the fates only."""
    if not any(column.key == "name" or column.key == "code" for column in headings.read):
        raise InvalidInput("no_column_named", field="file")
    fates: list[RowFate] = []
    try:
        with stash.act(token) as act:
            run = _Run(stash)
            for at, cells in enumerate(table.rows[headings.row + 1 :], headings.row + 2):
                if cells:
                    fates.append(_fate(run, at, read_told, cells, headings))
            if rehearse or any(one.fate == "refused" for one in fates):
                raise _NotToBeWritten
    except _NotToBeWritten:
        return BroughtIn(fates=tuple(fates))
    return BroughtIn(fates=tuple(fates), event=act.event or act.earlier)


def _fate(run: _Run, at: int, read: Any, cells: Any, headings: Headings) -> RowFate:
    try:
        told = read(cells, headings)
        fate, says, code = _written(run, at, told)
    except StashError as error:
        return RowFate(row=at, fate="refused", says=error.fact)
    return RowFate(row=at, fate=fate, says=says, code=code)


def _written(run: _Run, at: int, told: Told) -> tuple[str, Fact, str]:
    code = told.get("code")
    if code in run.codes:
        raise InvalidInput("code_in_two_rows", code=code, row=run.codes[code])
    if code is not None:
        run.codes[code] = at
        if run.stash.labels.state(code) not in ("blank", "unknown"):
            return _changed(run, at, code, told)
    subject = _subject(run, told)
    known = None if code is not None else run.stash.ledger.record(subject)
    if known is not None:
        earlier = known["told"]
        changed = {key: value for key, value in told.items()
                   if key == "what" or _plain(value) != earlier.get(key)}
        if len(changed) == 1:
            return "same", fact("row_same", code=str(known["code"])), str(known["code"])
        done = _changed(run, at, str(known["code"]), changed)
        _remember(run.stash, subject, str(known["code"]), earlier | _plain(told))
        return done
    new = _new_cut(run.stash, told) if told["what"] == "cut" else _new_bin(run.stash, told)
    _remember(run.stash, subject, new[2], _plain(told))
    return new


def _changed(run: _Run, at: int, code: str, told: Told) -> tuple[str, Fact, str]:
    what = run.stash.labels.state(code)
    if what != ("cut" if told["what"] == "cut" else "bin"):
        raise InvalidInput("code_of_another_kind", code=code, field="code")
    if what == "bin":
        changes = change_bin(run.stash, code, told)
    else:
        subject = run.stash.cuts.card(code).cloth
        wanted = cloth_told(run.stash.cuts.get(code).cloth, told)
        before = run.cloths.get(subject)
        if before is not None and wanted != before[1]:
            raise InvalidInput("rows_disagree_on_cloth", row=before[0], name=before[1].name)
        run.cloths[subject] = at, wanted
        changes = change_cut(run.stash, code, told)
    if not changes:
        return "same", fact("row_same", code=code), code
    return "changed", fact("row_changed", code=code, steps=changes), code


def _new_cut(stash: Stash, told: Told) -> tuple[str, Fact, str]:
    name, length_mm, width_mm = (_needed(told, key) for key in ("name", "length", "width"))
    cut = Cut(
        code="", cloth=cloth_told(cloth_named(stash, name) or Cloth(name=name), told),
        outline=Outline.rectangle(length_mm, width_mm), washed=bool(told.get("washed")),
        place=told.get("place"), acquired=told.get("acquired"), keep_for=told.get("keep_for"))
    code = stash.cuts.receive(cut, told.get("code")).code
    return "new", fact("row_new_cut", name=name, length_mm=length_mm, width_mm=width_mm), code


def _new_bin(stash: Stash, told: Told) -> tuple[str, Fact, str]:
    kind = NotionKind(told["what"])
    name, amount = _needed(told, "name"), _needed(told, "amount")
    held = Bin(code="", notion=notion_told(Notion(kind=kind, name=name), told),
               amount=amount, place=told.get("place"))
    code = stash.bins.receive(held, told.get("code")).code
    return "new", fact("row_new_bin", name=name), code


def _needed(told: Told, key: str) -> Any:
    if key not in told:
        raise InvalidInput(f"row_without_{key}", field=key)
    return told[key]


def _subject(run: _Run, told: Told) -> str:
    """Under what a row without a code is remembered: what it is, and which one of its like."""
    kind = "cut" if told["what"] == "cut" else "bin"
    said = _plain({key: told.get(key) for key in IDENTITY[kind]})
    said["name"] = key_of(str(told.get("name", "")))
    digest = hashlib.sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()[:20]
    run.met[digest] += 1
    return f"row:{digest}-{run.met[digest]}"


def _remember(stash: Stash, subject: str, code: str, told: Mapping[str, Any]) -> None:
    change = {subject: {"record": {"code": code, "told": dict(told)}}}
    stash.ledger.write(lambda: Entry(kind=Kind.RECEIPT, code=code, change=change))


def _plain(value: Any) -> Any:
    return json.loads(json.dumps(to_plain(value)))
