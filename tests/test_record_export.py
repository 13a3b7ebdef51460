"""Her data is hers: out as tables and JSON with every field described, and in again the same."""

from __future__ import annotations

import csv
import io
import json
import zipfile

import pytest
from click.testing import CliRunner
from PIL import Image

from stash.model import Cloth, Cut, Outline, Person, Plan, PlannedGarment
from stash.store import open_stash
from stash.store.backup.export import FIELDS, export
from stash.store.table import COLUMNS
from web.command import main


@pytest.fixture
def stash(tmp_path):
    """A stash in which names begin like formulae."""
    with open_stash(tmp_path / "loft") as stash:
        code = stash.cuts.receive(Cut(
            code="", cloth=Cloth(name="=HYPERLINK(1)", notes="@sum"), place="+1",
            outline=Outline.rectangle(2000, 1400))).code
        stash.people.save(Person(name="Pip Okell", measurements_mm={"hip": 800.5}))
        shirt = PlannedGarment(garment="shirt", person="Pip Okell")
        stash.plans.save(Plan(name="-Winter", garments=(shirt,)))
        stash.places.receive("Loft shelf")
        out = io.BytesIO()
        Image.new("RGB", (30, 20), "teal").save(out, "PNG")
        stash.photos.add(code, out.getvalue())
        yield stash


def tables(path):
    """The tables of an export, and the rest by name."""
    with zipfile.ZipFile(path) as file:
        found = {name: file.read(name) for name in file.namelist()}
    rows = {name: list(csv.reader(io.StringIO(content.decode("utf-8-sig"))))
            for name, content in found.items() if name.endswith(".csv")}
    return rows, found


def pictures(place):
    """Every photograph by its name."""
    return {p.name: p.read_bytes() for p in (place / "photos").rglob("*.jpg")}


def test_every_field_is_described_and_no_cell_is_a_formula(stash, tmp_path):
    """Signs that spreadsheets reckon with: OWASP, CSV Injection (=, +, -, @, tab, return)."""
    export(stash, tmp_path / "out.zip", photos=True, measurements=True)
    rows, found = tables(tmp_path / "out.zip")

    assert set(rows) == set(FIELDS)
    assert set(COLUMNS) == set(FIELDS["stock.csv"])
    described = json.loads(found["fields.json"])
    for name, lines in rows.items():
        assert lines[0] == list(described[name])
        assert all(not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
                   for line in lines for cell in line)


def test_measurements_and_photographs_are_in_it_only_when_asked_for(stash, tmp_path):
    """Nor is there a history that holds them."""
    export(stash, tmp_path / "out.zip")
    _, found = tables(tmp_path / "out.zip")

    assert not [n for n in found if n.endswith((".jpg", ".jsonl")) or n == "people.csv"]
    assert not [n for n, content in found.items() if b"800.5" in content]


def test_out_and_in_again_is_the_same_record(stash, tmp_path):
    """Every event, state and photograph."""
    out = str(tmp_path / "out.zip")
    for words in (("--data", str(tmp_path / "loft"), "record", "export", out, "--photos",
                   "--measurements", "--json"),
                  ("--data", str(tmp_path / "new"), "record", "import", out, "--json")):
        result = CliRunner().invoke(main, list(words))
        assert result.exit_code == 0, result.output
        assert json.loads(result.output)["ok"]
    with open_stash(tmp_path / "new") as new:
        assert list(new.ledger.events()) == list(stash.ledger.events())
        assert new.ledger.cached() == stash.ledger.cached()
    assert pictures(tmp_path / "loft") == pictures(tmp_path / "new") != {}
