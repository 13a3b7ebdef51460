"""``lengthwise draft``: what it prints, what it saves, what it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import ezdxf
import pypdfium2
import pytest
import svgelements
from click.testing import CliRunner, Result

from stash.draft.catalogue import garments
from web.command import main


def run(folder: Path, *words: str) -> Result:
    """The command with a data folder of its own."""
    return CliRunner().invoke(main, ["--data", str(folder / "loft"), *words])


TROUSERS = ("draft", "trousers", "--measure", "hip=100cm", "--measure", "waist=78cm")


def test_pieces_notions_and_estimates_as_json(tmp_path: Path):
    """The shape that other programs read."""
    value = json.loads(run(tmp_path, *TROUSERS, "--json").output)

    front = value["pieces"][0]
    assert set(front) >= {
        "name", "quantity", "mirrored_pair", "on_fold", "outline_mm", "role",
    }
    assert (front["name"], front["quantity"], front["mirrored_pair"]) == ("front", 2, True)
    assert len(front["outline_mm"][0]) == 2
    assert {n["kind"] for n in value["notions"]} == {"elastic", "thread"}
    assert value["estimated"] == [
            "body_rise", "inside_leg", "thigh", "foot_entry", "waist_to_hip"
        ]


def test_a_measurement_given_is_not_estimated(tmp_path: Path):
    """And it changes the draft."""
    value = json.loads(run(tmp_path, *TROUSERS, "--measure", "inside-leg=82cm", "--json").output)

    assert "inside_leg" not in value["estimated"]
    assert value["measurements_mm"]["inside_leg"] == 820


def test_elastic_is_the_waist_less_5_cm_or_tight_less_10_to_15_cm(tmp_path: Path):
    """Waist minus 2 in: Snowflake USD FACS page; tight: common practice, no source."""
    def elastic(*more: str) -> float:
        value = json.loads(run(tmp_path, *TROUSERS, *more, "--json").output)
        return next(n for n in value["notions"] if n["kind"] == "elastic")["length_mm"]

    assert elastic() == pytest.approx(780 - 50 + 13)
    assert 780 - 150 <= elastic("--option", "elastic=tight") <= 780 - 100


def test_a_person_on_record_is_measured_once(tmp_path: Path):
    """--for takes the measurements on record; --measure says otherwise for one of them."""
    run(tmp_path, "person", "add", "Odile", "--measure", "hip=104cm", "--measure", "waist=82cm")
    own = json.loads(run(tmp_path, "draft", "trousers", "--for", "Odile", "--json").output)
    slim = json.loads(
        run(tmp_path, "draft", "trousers", "--for", "Odile", "--measure", "waist=70cm",
            "--json").output
    )

    assert own["measurements_mm"]["hip"] == slim["measurements_mm"]["hip"] == 1040
    assert (own["measurements_mm"]["waist"], slim["measurements_mm"]["waist"]) == (820, 700)


@pytest.mark.parametrize("name", garments())
def test_options_are_listed_with_their_ranges(tmp_path: Path, name: str):
    """A length has a least and a most, a choice has its words."""
    value = json.loads(run(tmp_path, "draft", name, "--list-options", "--json").output)

    assert value["options"]
    for option in value["options"]:
        assert option["about"]
        assert option.get("words") or option["least_mm"] < option["most_mm"]


def test_svg_is_full_size(tmp_path: Path):
    """Read by svgelements: the front's cutting line is as long as the draft says."""
    file = tmp_path / "trousers.svg"
    value = json.loads(run(tmp_path, *TROUSERS, "--svg", str(file), "--json").output)
    wanted = max(x for x, _ in value["pieces"][1]["outline_mm"]) - min(
        x for x, _ in value["pieces"][1]["outline_mm"]
    )

    paths = svgelements.SVG.parse(str(file), ppi=25.4).select(
        lambda e: isinstance(e, svgelements.Path) and e.values.get("class") == "cut"
    )
    heights = [box[3] - box[1] for path in paths if (box := path.bbox())]

    assert max(heights) == pytest.approx(wanted, abs=0.05)
    assert value["files"] == [str(file)]


def test_dxf_has_a_block_for_each_piece(tmp_path: Path):
    """Read by ezdxf, in millimetres."""
    file = tmp_path / "shorts.dxf"
    run(tmp_path, "draft", "shorts", "--measure", "hip=100cm", "--measure", "waist=78cm",
        "--dxf", str(file))

    document = ezdxf.readfile(file)

    assert document.units == ezdxf.units.MM
    assert len(document.modelspace().query("INSERT")) == 2


@pytest.mark.parametrize(("paper", "width_mm"), [("a4", 210), ("letter", 215.9)])
def test_tiles_are_pages_of_the_paper(tmp_path: Path, paper: str, width_mm: float):
    """Every page of the PDF has the paper's width."""
    file = tmp_path / "tiles.pdf"
    run(tmp_path, *TROUSERS, "--tiled", paper, str(file))

    with pypdfium2.PdfDocument(file.read_bytes()) as pages:
        widths = {round(page.get_width() / 72 * 25.4, 1) for page in pages}
        count = len(pages)

    assert count > 10
    assert widths == {width_mm}


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("draft", "socks"), "There is no draft of “socks”"),
        ((*TROUSERS[:4], "--measure", "waist=10cm"), "waist of 10 cm cannot be right"),
        ((*TROUSERS[:4],), "waist"),
        ((*TROUSERS, "--option", "length=5cm"), "length can be from"),
        ((*TROUSERS, "--option", "lenght=90cm"), "no option “lenght”"),
        ((*TROUSERS, "--option", "length"), "write it like length=45cm"),
        ((*TROUSERS, "--measure", "hip"), "write it like hip=100cm"),
        ((*TROUSERS, "--for", "Nobody"), "Nobody"),
        ((*TROUSERS, "--svg", "no/such/folder/x.svg"), "cannot be written"),
    ],
)
def test_a_mistake_gets_one_sentence(tmp_path: Path, words: tuple[str, ...], says: str):
    """Exit status 1, no traceback."""
    result = run(tmp_path, *words)

    assert result.exit_code == 1
    assert says in result.output
    assert "Traceback" not in result.output


@pytest.mark.parametrize(("given", "sentence"), [
    ("hips=100cm", "“hips” is not a measurement that a draft uses; is hip meant?"),
    ("moon=100cm", "“moon” is not a measurement that a draft uses; use one of hip, "),
])
def test_a_misspelt_measurement_is_told_by_its_name(tmp_path: Path, given: str, sentence: str):
    """Not as the measurement that its misspelling leaves missing."""
    result = run(tmp_path, "draft", "trousers", "--measure", given, "--measure", "waist=78cm")
    assert result.exit_code == 1
    assert sentence in str(result.output)


def test_match_points_are_told_with_the_pieces(tmp_path: Path):
    """So that a lay on a repeat can be followed, or asked for with the pieces as a file."""
    value = json.loads(run(tmp_path, *TROUSERS, "--json").output)
    assert all(len(piece["match_points_mm"]) == 1 for piece in value["pieces"])
