"""The stash from a spreadsheet and into one: read, told row by row, all or none, never doubled."""

from __future__ import annotations

import io
import json
import zipfile
from contextlib import suppress

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from stash.errors import InvalidInput
from stash.model import Bin, Cloth, Construction, Cut, FibreShare, Notion, NotionKind, Outline
from stash.sentences import Reader
from stash.sentences.reader import LANGUAGES
from stash.spreadsheet.columns import column_keys, guessed, heading
from stash.spreadsheet.reading import cells_in, read_spreadsheet
from stash.spreadsheet.told import read_told
from stash.store import open_stash
from stash.units import System
from stash.workroom.spreadsheets.bring_in import bring_in
from stash.workroom.spreadsheets.take_out import KINDS, filled, template
from web.command import main

LOFT = ("Name,Length (cm),Width (cm),Place\n"
        "Dune linen,150,140,Shelf 1\nTide drill,2.5 m,138,Shelf 2\n")
ODF = "urn:oasis:names:tc:opendocument:xmlns"


@pytest.fixture
def stash(tmp_path):
    """An empty record."""
    with open_stash(tmp_path / "loft") as opened:
        yield opened


def brought(stash, text, *, rehearse=False):
    """What became of each row of a table typed as CSV."""
    table = cells_in(text.encode() if isinstance(text, str) else text)
    return bring_in(stash, table, guessed(table), rehearse=rehearse)


def fates(done):
    """The fates, row after row."""
    return [one.fate for one in done.fates]


def told(text):
    """What the first row below the headings tells."""
    table = cells_in(text.encode())
    headings = guessed(table)
    return read_told(table.rows[headings.row + 1], headings)


# --- what is in a file ---------------------------------------------------------------


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_cells_are_parted_by_commas_semicolons_or_tabs(mark):
    """RFC 4180 names the comma; where the comma is decimal, spreadsheets write semicolons."""
    table = cells_in(f"Name{mark}Length (m)\nDune{mark}\"1{mark}5\"\n".encode())

    assert table.rows == (("Name", "Length (m)"), ("Dune", f"1{mark}5".replace("\t", " ")))


def test_a_decimal_comma_is_a_decimal_point():
    """1,5 m is a metre and a half."""
    assert told("Stoff;Länge (m);Breite (cm)\nDüne;1,5;140\n")["length"] == pytest.approx(1500)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252", "mac_roman"])
def test_letters_are_read_however_they_were_written(encoding):
    """UTF-8 with and without a byte-order mark, and what spreadsheets wrote before it."""
    text = ("Stoff;Länge (cm);Breite (cm);Ort\nBaumwolle für Möbel;150;140;Schränkchen\n"
            "Dünnes Grün;90;112;Regal über der Tür\n")

    assert cells_in(text.encode(encoding)).rows[1][0] == "Baumwolle für Möbel"


def test_an_open_document_repeats_rows_and_cells_instead_of_writing_them_out():
    """ODF 1.2, part 1, 19.675 and 19.679: number-columns-repeated, number-rows-repeated."""
    cell = '<table:table-cell office:value-type="string"{}><text:p>{}</text:p></table:table-cell>'
    row = "<table:table-row{}>{}</table:table-row>"
    repeated = ' table:number-rows-repeated="{}"'
    names = "".join(cell.format("", n) for n in ("Name", "Length (cm)", "Width (cm)"))
    number = '<table:table-cell office:value-type="float" office:value="150" {}/>'
    cut = cell.format("", "Dune") + number.format('table:number-columns-repeated="2"')
    empty = '<table:table-cell table:number-columns-repeated="16384"/>'
    content = (
        f'<office:document-content xmlns:office="{ODF}:office:1.0" xmlns:table="{ODF}:table:1.0"'
        f' xmlns:text="{ODF}:text:1.0" office:version="1.2"><office:body><office:spreadsheet>'
        f'<table:table table:name="Loft">{row.format("", names)}'
        + row.format(repeated.format(2), cut) + row.format(repeated.format(1048573), empty) +
        "</table:table></office:spreadsheet></office:body></office:document-content>")
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        packed.writestr("content.xml", content)
        packed.writestr("META-INF/manifest.xml", (
            f'<manifest:manifest xmlns:manifest="{ODF}:manifest:1.0">'
            '<manifest:file-entry manifest:full-path="/" manifest:media-type='
            '"application/vnd.oasis.opendocument.spreadsheet"/></manifest:manifest>'))

    table = read_spreadsheet(out.getvalue())

    assert table.sheet == "Loft"
    assert table.rows == (("Name", "Length (cm)", "Width (cm)"), *(("Dune", "150", "150"),) * 2)


def test_only_the_first_sheet_is_read_and_the_others_are_named():
    """Nobody takes one sheet for all of them."""
    book = Workbook()
    book.active.append(["Name"])
    book.active.append(["Dune"])
    book.create_sheet("Notions")
    out = io.BytesIO()
    book.save(out)

    table = cells_in(out.getvalue())

    assert (table.sheet, table.others) == ("Sheet", ("Notions",))


@pytest.mark.parametrize("content", [
    b"", b"\n\n", b"\x00\x01", b"PK\x03\x04", b"PK\x03\x04" + b"x" * 200, b"%PDF-1.7\0",
    b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 100, b"\xff\xfe\x00",
])
def test_what_is_no_table_is_refused_in_one_sentence(content, sentence):
    """Never a traceback of a library."""
    with pytest.raises(InvalidInput) as refused:
        cells_in(content)
    assert sentence(refused.value).endswith(".")


@given(st.binary(max_size=300))
def test_whatever_the_bytes_are_they_are_a_table_or_refused(content):
    """Any file that is taken for a table ends in cells or in a sentence."""
    with suppress(InvalidInput):
        assert cells_in(content).rows


# --- what its columns say ------------------------------------------------------------


@pytest.mark.parametrize("language", LANGUAGES)
def test_headings_are_known_in_three_languages(language):
    """Every column of the template is known again by its heading in each of them."""
    heads = ",".join(f'"{heading(key, language)}"' for key in column_keys())
    table = cells_in(f"{heads}\nx\n".encode())

    assert [c.key for c in guessed(table).columns] == list(column_keys())


@pytest.mark.parametrize(("text", "key", "unit"), [
    ("Length (cm)", "length", "cm"), ("Länge in m", "length", "m"), ("Laize, cm", "width", "cm"),
    ("Usable width [in]", "width", "in"), ("Métrage (m)", "length", "m"),
    ("length_mm", "length", "mm"),
    ("Weight g/m²", "mass", "g/m2"), ("Gewicht (g/qm)", "mass", "g/m2"), ("gsm", "mass", "g/m2"),
    ("Breite (Zoll)", "width", "in"), ("Regal", "place", ""), ("Couleur", "colour", ""),
    ("Price per yard", "", ""), ("Weight (kg)", "", ""), ("Shelf life", "", ""),
])
def test_a_heading_says_what_its_column_means_and_in_which_unit(text, key, unit):
    """A heading that is not known is left out rather than guessed."""
    [column] = guessed(cells_in(f"\"{text}\"\n1\n".encode())).columns

    assert (column.key, column.unit) == (key, unit)


def test_a_title_may_stand_above_the_headings():
    """The row with the most headings that are known is the row of headings."""
    table = cells_in(b"My cloth,,\n\nName,Length (cm),Width (cm)\nDune,150,140\n")

    assert guessed(table).row == 2


@pytest.mark.parametrize(("heads", "cells", "kind"), [
    ("Name,Length,Width (cm)", "Dune,150,140", "unit_of_column_wanted"),
    ("Name,Weight", "Dune,180", "unit_of_column_wanted"),
    ("Name,Length (cm),Width (cm),Came on", "Dune,150,140,03/04/2024", "day_in_row"),
    ("Name,What it is,Size,Amount", "Shell,button,15,12", "unit_of_column_wanted"),
    ("Name,Fibres", "Dune,60% linen", "fibres_not_whole"),
    ("Name,Colour", "Dune,blurple", "not_a_colour_name"),
    ("Name,Washed", "Dune,perhaps", "yes_or_no"),
    ("Name,What it is,Width (cm)", "Shell,button,140", "column_not_of_this"),
    ("Name,What it is", "Shell,sofa", "what_is_in_row"),
])
def test_a_cell_that_can_mean_two_things_or_none_is_refused(heads, cells, kind):
    """A bare number of two usual units, a day of slashes, a word that is no colour."""
    with pytest.raises(InvalidInput) as refused:
        told(f"{heads}\n{cells}\n")
    assert refused.value.fact.kind == kind


def test_a_row_of_three_languages_is_the_same_row():
    """Yes, oui and ja; woven, tissé and gewebt; dark blue, bleu foncé and dunkelblau."""
    rows = [told(text) for text in (
        "Name,Washed,Woven or knitted,Colour,Came on\nDune,yes,woven,dark blue,2024-03-09\n",
        "Nom,Lavé,Tissé ou tricoté,Couleur,Reçu le\nDune,oui,tissé,bleu foncé,2024-03-09\n",
        "Name,Gewaschen,Bindung,Farbe,Kaufdatum\nDune,ja,gewebt,dunkelblau,9.3.2024\n")]

    assert rows[0] == rows[1] == rows[2]
    assert rows[0]["construction"] is Construction.WOVEN


# --- what becomes of the rows --------------------------------------------------------


def test_a_rehearsal_tells_every_fate_and_writes_nothing(stash):
    """The fates are those of the run itself, taken back."""
    done = brought(stash, LOFT, rehearse=True)

    assert fates(done) == ["new", "new"]
    assert (stash.cuts.all(), stash.ledger.newest(), done.written) == ([], 0, 0)


def test_all_rows_are_one_event_and_one_undo(stash):
    """An afternoon's table is taken back at once."""
    done = brought(stash, LOFT)

    assert done.written == 2
    assert [e.id for e in stash.ledger.latest()] == [done.event.id]
    stash.ledger.undo(done.event.id)
    assert stash.cuts.all() == []
    assert fates(brought(stash, LOFT)) == ["new", "new"]


def test_one_refused_row_keeps_all_of_them_out(stash):
    """All or none: half a table is worse than none."""
    done = brought(stash, LOFT + "Kelp,0,140,\n")

    assert fates(done) == ["new", "new", "refused"]
    assert (stash.cuts.all(), done.written) == ([], 0)


def test_the_same_file_twice_doubles_nothing_whatever_was_cut_off_since(stash):
    """Two like rows are two cuts; the file that comes again is known again, row by row."""
    twice = LOFT + "Dune linen,150,140,Shelf 1\n"
    first = brought(stash, twice)
    stash.cuts.cut_off(first.fates[0].code, 300)

    again = brought(stash, twice)

    assert fates(again) == ["same", "same", "same"]
    assert len(stash.cuts.all()) == 3
    assert stash.cuts.get(first.fates[0].code).length_mm == pytest.approx(1200)


def test_what_was_changed_in_the_file_alone_is_changed_on_record(stash):
    """The place in the file moved on; the length on record did, and stays."""
    first = brought(stash, LOFT)
    code = first.fates[0].code
    stash.cuts.cut_off(code, 300)

    again = brought(stash, LOFT.replace("Shelf 1", "Cedar chest"))

    assert fates(again) == ["changed", "same"]
    assert stash.cuts.get(code).place == "Cedar chest"
    assert stash.cuts.get(code).length_mm == pytest.approx(1200)


def test_two_rows_of_one_cloth_that_disagree_are_refused(stash):
    """A cloth's facts hold for all its cuts, so the second row would undo the first."""
    brought(stash, "Name,Length (cm),Width (cm)\nDune,150,140\nDune,90,140\n")
    codes = [cut.code for cut in stash.cuts.all()]

    done = brought(stash, f"Code,Fibres\n{codes[0]},linen\n{codes[1]},cotton\n")

    assert fates(done) == ["changed", "refused"]


def test_a_code_of_a_bin_is_no_cut(stash):
    """A row about what carries the code must be of its kind."""
    code = stash.bins.receive(Bin(
        code="", notion=Notion(kind=NotionKind.BUTTON, name="Shell"), amount=9)).code

    done = brought(stash, f"Code,Name,Length (cm),Width (cm)\n{code},Dune,150,140\n")

    assert done.fates[0].says.kind == "code_of_another_kind"


def test_a_blank_label_that_is_already_stuck_on_is_used(stash):
    """The code in the row is the code of the cut."""
    [code] = stash.labels.reserve(1)

    brought(stash, f"Code,Name,Length (cm),Width (cm)\n{code},Dune,150,140\n")

    assert stash.cuts.get(code).cloth.name == "Dune"


# --- and out again -------------------------------------------------------------------


def furnish(stash):
    """Cuts and bins with something in every column, names that look like formulae among them."""
    cloth = Cloth(
        name="=1+1", fibres=(FibreShare("flax", 55), FibreShare("cotton", 45)), mass_gsm=183.4,
        construction=Construction.WOVEN, colours=("#7a1f2b", "#101820"), one_way=True,
        shrink_along_pct=4, shrink_across_pct=1.5, price_minor_per_m=1850, care="30 °C",
        notes="from a market,\nsecond hand")
    stash.cuts.receive(Cut(
        code="", cloth=cloth, outline=Outline.rectangle(1524.37, 1143), place="Shelf; 1",
        washed=True, acquired="2024-03-09", keep_for="Bram's trousers"))
    stash.cuts.receive(Cut(code="", cloth=Cloth(name="Tide"), outline=Outline.rectangle(90, 40)))
    stash.bins.receive(Bin(code="", notion=Notion(
        kind=NotionKind.BUTTON, name="+Shell", size_mm=11.5, colour="#ece5d8", material="shell"),
        amount=14, place="@Tin"))
    stash.bins.receive(Bin(code="", notion=Notion(
        kind=NotionKind.ELASTIC, name="Soft", size_mm=20, colour="mother of pearl"), amount=3333.3))
    stash.bins.receive(Bin(code="", notion=Notion(kind=NotionKind.THREAD, name="Red"), amount=0))


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("reader", [Reader(System.METRIC, "de"), Reader(System.INCHES, "fr")])
def test_what_goes_out_comes_in_again_as_the_same(stash, kind, reader):
    """Every cut and bin, in each kind of file, in other words and units than the record's."""
    furnish(stash)
    content = filled(stash, reader, kind)

    done = brought(stash, content)

    assert fates(done) == ["same"] * 5


@pytest.mark.parametrize("kind", KINDS)
def test_an_empty_template_is_known_by_all_its_columns(kind):
    """What is filled in there needs no correcting."""
    [row] = cells_in(template(Reader(System.METRIC, "fr"), kind)).rows
    columns = guessed(cells_in(template(Reader(System.METRIC, "fr"), kind))).columns

    assert len(row) == len(column_keys())
    assert [c.key for c in columns] == list(column_keys())
    assert {c.key: c.unit for c in columns}["length"] == "cm"


def test_a_name_that_begins_like_a_formula_is_never_one(stash):
    """No <f> in the sheet (ECMA-376, 18.3.1.40), no table:formula (ODF 1.2), a guard in the CSV."""
    furnish(stash)
    reader = Reader(System.METRIC)
    xlsx, ods, text = (filled(stash, reader, kind) for kind in ("xlsx", "ods", "csv"))

    sheet = load_workbook(io.BytesIO(xlsx)).active
    assert {cell.data_type for row in sheet for cell in row} <= {"s", "n"}
    with zipfile.ZipFile(io.BytesIO(xlsx)) as packed:
        assert b"<f>" not in packed.read("xl/worksheets/sheet1.xml")
    with zipfile.ZipFile(io.BytesIO(ods)) as packed:
        assert b"table:formula" not in packed.read("content.xml")
    assert b"'=1+1" in text and b",=1+1" not in text


# --- as commands ---------------------------------------------------------------------


@pytest.fixture
def run(tmp_path):
    """Runs ``lengthwise`` on a stash of its own and reads its JSON."""

    def run(*words, status=0):
        result = CliRunner().invoke(main, ["--data", str(tmp_path / "loft"), *map(str, words)])
        assert result.exit_code == status, result.output
        return json.loads(result.stdout)

    return run


def test_the_command_says_each_row_and_how_many_were_written(run, tmp_path):
    """{"rows": [{"row", "fate", "says"}], "written": N}; with --dry-run nothing is."""
    file = tmp_path / "loft.csv"
    file.write_text(LOFT)

    dry = run("record", "import", file, "--dry-run", "--json")
    done = run("record", "import", file, "--json")

    assert [(r["row"], r["fate"]) for r in dry["rows"]] == [(2, "new"), (3, "new")]
    assert dry["rows"][0]["says"] == "Comes in: Dune linen, 1.50 m × 140 cm."
    assert (dry["written"], done["written"]) == (0, 2)
    assert run("record", "import", file, "--json")["written"] == 0


def test_the_command_refuses_a_bare_number_until_its_unit_is_said(run, tmp_path):
    """150 may be centimetres or millimetres: --unit says it, --column what a heading means."""
    file = tmp_path / "loft.csv"
    file.write_text("Tuch,Strecke,Breite\nDune,150,140\n")

    refused = run("record", "import", file, "--column", "Tuch=name", "--column",
                  "Strecke=length", "--json", status=1)
    done = run("record", "import", file, "--column", "Tuch=name", "--column", "Strecke=length",
               "--unit", "Strecke=cm", "--unit", "Breite=cm", "--json")

    assert refused["rows"][0]["fact"]["kind"] == "unit_of_column_wanted"
    assert done["written"] == 1


@pytest.mark.parametrize("kind", KINDS)
def test_the_template_command_writes_what_the_import_reads(run, tmp_path, kind):
    """Out and in again: all the same, nothing written."""
    file = tmp_path / f"loft.{kind}"
    (tmp_path / "in.csv").write_text(LOFT)
    run("record", "import", tmp_path / "in.csv", "--json")
    run("record", "template", file, "--filled", "--json")

    done = run("record", "import", file, "--json")

    assert ([r["fate"] for r in done["rows"]], done["written"]) == (["same", "same"], 0)
