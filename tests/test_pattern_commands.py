"""``lengthwise pattern`` and ``lengthwise calibration`` as they are called from outside."""

from __future__ import annotations

import json

import ezdxf
import pytest
from click.testing import CliRunner
from trace_photo import Camera, Scene, photograph

from web.command import main

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="600mm" viewBox="0 0 400 600">'
    '<rect id="front" x="20" y="30" width="300" height="500"/></svg>'
)


@pytest.fixture
def run(tmp_path):
    """Call the command on a data folder of its own: (exit code, answer or text)."""

    def call(*words: object, as_json: bool = True):
        args = ["--data", str(tmp_path / "data"), *map(str, words)]
        result = CliRunner().invoke(main, [*args, "--json"] if as_json else args)
        assert result.exception is None or isinstance(result.exception, SystemExit)
        if result.exit_code == 0 and as_json:
            return 0, json.loads(result.stdout)
        return result.exit_code, result.stderr if as_json else result.stdout + result.stderr

    return call


@pytest.fixture
def svg_file(tmp_path):
    """An SVG file with one piece of 300 x 500 mm."""
    path = tmp_path / "loft.svg"
    path.write_text(SVG, encoding="utf-8")
    return path


def test_import_answers_with_every_piece(run, svg_file):
    """Name, quantity, size, area and outline, in millimetres."""
    _, value = run("pattern", "import", svg_file, "--name", "loft apron")
    (piece,) = value["pieces"]

    assert value["pattern"] == "loft apron"
    assert (piece["name"], piece["quantity"]) == ("front", 1)
    assert (piece["width_mm"], piece["height_mm"]) == pytest.approx((300, 500), abs=0.01)
    assert piece["area_mm2"] == pytest.approx(150_000, abs=10)
    assert len(piece["outline_mm"]) == 4


def test_importing_again_makes_a_new_version(run, svg_file):
    """The older one can still be shown."""
    run("pattern", "import", svg_file, "--name", "loft apron")
    _, second = run("pattern", "import", svg_file, "--name", "loft apron")
    _, first = run("pattern", "show", "loft apron", "--version", 1)

    assert (second["version"], first["version"]) == (2, 1)


def test_a_dxf_without_units_asks_for_them(run, tmp_path):
    """Exit 1 and one sentence; with --units it is read."""
    drawing = ezdxf.new("R12")
    ring = [(0, 0), (30, 0), (30, 50), (0, 50)]
    drawing.modelspace().add_polyline2d(ring, close=True)
    path = tmp_path / "old.dxf"
    drawing.saveas(path)
    code, text = run("pattern", "import", path)
    _, value = run("pattern", "import", path, "--units", "cm")

    assert code == 1
    assert "--units" in text
    assert value["pieces"][0]["area_mm2"] == pytest.approx(150_000)


@pytest.mark.parametrize("words", [
    ("pattern", "import", "absent.svg"),
    ("pattern", "trace", "absent.jpg"),
    ("pattern", "show", "nothing"),
    ("pattern", "add", "smock", "--piece", "front"),
    ("pattern", "table", "wide"),
    ("calibration", "--sheets", "9", "--out", "c.pdf"),
])
def test_bad_input_gets_one_sentence(run, words):
    """Exit 1, one line, no traceback."""
    code, text = run(*words)

    said = text.rpartition("}\n")[2].strip()  # with --json the fact itself comes first
    assert code == 1
    assert said.endswith(".")
    assert len(said.splitlines()) == 1


def test_typed_pieces_are_kept_and_listed(run):
    """Added once, then on the list with its pieces."""
    run("pattern", "add", "smock", "--piece", "front, 80cm x 60cm, on fold",
        "--piece", "sleeve, 50cm x 40cm-30cm, pair")
    _, value = run("pattern", "list")

    assert value["patterns"] == [
        {"pattern": "smock", "version": 1, "source": "typed", "pieces": ["front", "sleeve"]}
    ]


def test_two_pieces_of_one_name_are_refused(run):
    """Copies are made by quantity."""
    same = ("--piece", "a, 9cm x 9cm")
    code, text = run("pattern", "add", "smock", *same, *same)

    assert code == 1
    assert "same name" in text


def test_show_saves_drawing_dxf_and_print(run, tmp_path, svg_file):
    """Each file is what its name says."""
    run("pattern", "import", svg_file, "--name", "loft apron")
    svg, dxf, pdf = (tmp_path / f"out.{kind}" for kind in ("svg", "dxf", "pdf"))
    run("pattern", "show", "loft apron", "--svg", svg, "--dxf", dxf, "--tiled", "a4", pdf)

    assert svg.read_text().startswith("<svg")
    assert b"SECTION" in dxf.read_bytes()[:100]
    assert pdf.read_bytes().startswith(b"%PDF")


def test_show_tells_a_program_all_that_was_set(run):
    """How far it may be lengthened, whether a photograph lies under it, its wearer, cloth and
    notions.
    """
    run("pattern", "add", "smock", "--piece", "front, 80cm x 60cm, on fold",
        "--piece", "sleeve, 50cm x 40cm-30cm, pair")
    run("pattern", "set", "smock", "--wearer", "Odile", "--weight", "120-250", "--needs",
        "5 buttons 15 mm", "--piece", "front: lengthen at 20cm by 6cm")
    _, shown = run("pattern", "show", "smock")

    assert {p["name"]: p["length_most_mm"] for p in shown["pieces"]} == {
        "front": 60.0, "sleeve": None}
    assert [p["photograph"] for p in shown["pieces"]] == [None, None]
    assert shown["wearer"] == "Odile" and shown["wants"]["mass_gsm"] == [120.0, 250.0]
    assert [(n["kind"], n["count"]) for n in shown["notions"]] == [("button", 5)]


def test_a_table_finds_the_cuts_that_are_long_enough(run):
    """An estimate by the printed rows, the closest fit first."""
    run("cut", "add", "canvas", "3m x 140cm")
    run("cut", "add", "poplin", "2.6m x 115cm")
    run("cut", "add", "scrap", "80cm x 140cm")
    _, value = run("pattern", "table", "114cm=2.5m", "140cm=2.1m")

    assert value["estimate"] is True
    assert [(c["name"], c["fits"]) for c in value["candidates"]] == [
        ("poplin", True), ("canvas", True), ("scrap", False)
    ]


def test_a_photograph_is_traced_and_a_remnant_recorded(run, tmp_path):
    """The same picture gives pieces, kept under a name, or the shape of a cut."""
    board = ((230, -120), (430, -120), (430, 280), (230, 280))
    scene = Scene(pieces=(board,), density=2.0, window=(-500, -400, 700, 600))
    camera = Camera(target_mm=(120, 100), height_mm=1000, size_px=(1800, 1350))
    photo = tmp_path / "floor.jpg"
    photo.write_bytes(photograph(scene, camera))
    _, shown = run("pattern", "trace", photo)
    _, kept = run("pattern", "trace", photo, "--name", "bib", "--piece", "bib front")
    _, again = run("pattern", "show", "bib")
    _, cut = run("cut", "add", "linen", "60cm x 40cm")
    _, measured = run("pattern", "trace", photo, "--cut", cut["code"])

    assert shown["pattern"] is None
    assert kept["pattern"] == "bib"
    assert kept["pieces"][0]["name"] == "bib front"
    assert kept["pieces"][0]["area_mm2"] == pytest.approx(80_000, rel=0.02)
    assert again["pieces"][0]["photograph"]
    assert again["pieces"][0]["photograph"] == kept["pieces"][0]["photograph"]
    assert measured["cut"] == cut["code"]
    assert run("cut", "show", cut["code"])[1]["length_mm"] == pytest.approx(400, abs=3)


def test_calibration_sheets_are_printed(run, tmp_path):
    """Two pages, two different sheets."""
    path = tmp_path / "sheets.pdf"
    _, value = run("calibration", "--sheets", 2, "--out", path)

    assert value["sheets"] == 2
    assert path.read_bytes().startswith(b"%PDF")


def test_a_pattern_of_her_own_does_not_hide_behind_a_draft(run, svg_file):
    """Named like a draft it would never be laid: the draft would be drawn in its place."""
    code, text = run("pattern", "import", svg_file, "--name", "Trousers")

    assert code == 1
    assert "is the name of a draft" in str(text)
