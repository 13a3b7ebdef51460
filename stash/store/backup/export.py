"""Her data is hers: one zip of tables, JSON and photographs, each field described.

With everything in it, it is a backup as well: ``restore`` makes an identical record of it.
Body measurements, and the history that holds them, are in it only when asked for, and so
are photographs.
"""

from __future__ import annotations

import csv
import io
import json
import zipfile
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path

from stash.model.exact import to_plain
from stash.store.backup.backup_file import write_ledger, write_photos
from stash.store.backup.findings import Findings
from stash.store.backup.whole_zip import whole_zip
from stash.store.opening import Stash
from stash.store.table import harmless, stock_table

TableRows = Iterable[Mapping[str, object]]
FIELDS: dict[str, dict[str, str]] = {
    "stock.csv": {
        "code": "the code on the label", "what": "cut, remnant, or the kind of notion",
        "name": "what the cloth or notion is called", "length_mm": "length left, millimetres",
        "width_mm": "usable width, millimetres", "amount": "how many, for things that are counted",
        "size_mm": "size of a notion, millimetres", "fibres": "composition, by the EU's names",
        "mass_gsm": "weight, grams per square metre", "colour": "colours, as typed or #rrggbb",
        "washed": "yes or no", "place": "where it lies", "held_for": "plans that hold it",
        "acquired": "when it came, year first", "keep_for": "what it is kept for",
        "care": "care, as typed", "notes": "notes, as typed",
    },
    "places.csv": {
        "code": "the code on the label", "name": "what the place is called",
        "notes": "notes, as typed",
    },
    "plans.csv": {
        "name": "what the plan is called", "garments": "what is to be made, and for whom",
        "made": "the day it was made; empty while it is not",
    },
    "people.csv": {
        "name": "the person", "measurement": "what was measured",
        "mm": "that measurement, millimetres", "body": "the table that estimates the rest",
    },
    "history.csv": {
        "event": "number, in the order of writing",
        "at": "moment, ISO 8601: the local clock, and what it is off UTC",
        "kind": "what happened", "about": "code or other subject", "who": "who recorded it",
        "device": "on which device", "undoes": "for an undo, the event it holds off",
    },
}


def export(
    stash: Stash, path: Path, *, photos: bool = False, measurements: bool = False
) -> Findings:
    """Write the zip to ``path``; Unavailable when it cannot be written."""
    with whole_zip(path) as file:
        return _write(stash, file, photos=photos, measurements=measurements)


def _write(
    stash: Stash, file: zipfile.ZipFile, *, photos: bool, measurements: bool
) -> Findings:
    tables = {"stock.csv": stock_table(stash), "places.csv": _table("places.csv", _places(stash)),
              "plans.csv": _table("plans.csv", _plans(stash)),
              "history.csv": _table("history.csv", _history(stash))}
    if measurements:
        tables["people.csv"] = _table("people.csv", _people(stash))
    for name, text in tables.items():
        file.writestr(name, text.encode("utf-8-sig"))
    described = {name: FIELDS[name] for name in tables}
    file.writestr("fields.json", json.dumps(described, ensure_ascii=False, indent=1))
    history = write_ledger(stash, file) if measurements else Findings(events=stash.ledger.newest())
    return replace(history, photos=write_photos(stash, file) if photos else 0)


def _places(stash: Stash) -> TableRows:
    return (to_plain(place) for place in stash.places.all())


def _plans(stash: Stash) -> TableRows:
    for plan in stash.plans.all():
        made_for = ", ".join(f"{g.garment} for {g.person}" if g.person else g.garment
                             for g in plan.garments)
        yield {"name": plan.name, "garments": made_for, "made": plan.made}


def _people(stash: Stash) -> TableRows:
    for person in stash.people.all():
        for measurement, mm in person.measurements_mm.items():
            yield {"name": person.name, "measurement": measurement, "mm": mm,
                   "body": person.body}


def _history(stash: Stash) -> TableRows:
    for event in stash.ledger.events():
        yield {"event": event.id, "at": event.at, "kind": event.kind.value, "about": event.code,
               "who": event.who, "device": event.device, "undoes": event.undoes}


def _table(name: str, rows: TableRows) -> str:
    out = io.StringIO()
    writer = csv.DictWriter(out, list(FIELDS[name]))
    writer.writeheader()
    for row in rows:
        writer.writerow({column: harmless(row.get(column)) for column in FIELDS[name]})
    return out.getvalue()

