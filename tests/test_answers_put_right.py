"""Nine answers that were once wrong or misleading, asked at the command line as she asks them.

Nothing here reaches below a command, so that the same questions can be put to an earlier
version; what that one answered stands in docs/match.md.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from web.command import main

FEW_SECONDS = ("--seconds", "0.6")
# A length that a sentence calls missing: "needs 12 cm more", "is 12 cm longer", "12 cm short".
MISSING = re.compile(r"([\d.]+) (mm|cm|m) (?:more|longer|short)")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A woman and an empty stash."""
    run(tmp_path, "person", "add", "Ines Marlow", "--body", "women", "--measure", "hip=98cm",
        "--measure", "waist=78cm", "--measure", "bust=94cm", "--measure", "height=168cm")
    return tmp_path


def told(folder: Path, *arguments: str) -> tuple[int, str]:
    """How a command ended, and what it said."""
    result = CliRunner().invoke(main, ["--data", str(folder), *arguments])
    return result.exit_code, result.output


def run(folder: Path, *arguments: str) -> dict:
    """A command's JSON."""
    code, output = told(folder, *arguments, "--json")
    assert code == 0, output
    return json.loads(output)


def cut(folder: Path, name: str, size: str, *more: str) -> str:
    """The code of a new cut."""
    return run(folder, "cut", "add", name, size, *more)["code"]


def fit(folder: Path, *arguments: str) -> dict:
    """The answer for the woman."""
    return run(folder, "fit", *arguments, "--for", "Ines Marlow", *FEW_SECONDS)


def span_mm(piece: dict) -> float:
    """How far a piece reaches along the grain."""
    along = [x for x, _y in piece["outline_mm"]]
    return max(along) - min(along)


def test_cloth_that_nobody_washed_is_not_said_to_fit_by_what_the_first_wash_takes(folder: Path):
    """Cotton denim of 1.02 times the lay loses up to 6 per cent (shrinkage_presumed.csv, common
    practice): it fits only unwashed, and the answer says so instead of a plain yes."""
    long = cut(folder, "Long denim", "4m x 150cm", "--fibres", "100% cotton", "--mass",
               "365 g/m2", "--construction", "woven", "--washed")
    need_mm = fit(folder, "trousers", "--cut", long)["candidates"][0]["lay"]["length_mm"]
    short = cut(folder, "Denim", f"{need_mm * 1.02:.0f}mm x 150cm", "--fibres", "100% cotton",
                "--mass", "365 g/m2", "--construction", "woven")

    (answer,) = fit(folder, "trousers", "--cut", short)["candidates"]

    assert "unwashed" in answer["reason"], answer["reason"]
    assert (answer["washed"]["status"], answer["washed"]["along_pct"]) == ("presumed", 6.0)


def test_what_is_missing_is_one_number(tmp_path: Path):
    """Trousers over a whole stash, remnants among it: the length that a sentence calls missing is
    the length that programs read, and what a change saves and then still lacks add up to it."""
    told(tmp_path, "demo", "--no-serve")

    answer = run(tmp_path, "fit", "trousers", "--for", "Bram Okell", *FEW_SECONDS)

    short = {one["cut"]: one["short_mm"] for one in answer["candidates"] if not one["fits"]}
    assert short
    for one in answer["candidates"]:
        for number, unit in MISSING.findall(one["reason"]):
            lacking_mm = float(number) * {"mm": 1, "cm": 10, "m": 1000}[unit]
            assert lacking_mm == pytest.approx(one["short_mm"], abs=6), one
    for change in answer["rescues"]:
        if not change["fits"]:
            adds_up_mm = change["saves_mm"] + change["short_mm"]
            assert adds_up_mm == pytest.approx(short[change["cut"]], abs=0.2), change["change"]


def test_a_print_on_a_crosswise_fold_does_not_end_the_question(tmp_path: Path):
    """A skirt asked of a whole stash that holds printed cloth is answered, each way of folding."""
    told(tmp_path, "demo", "--no-serve")

    answer = run(tmp_path, "fit", "a-line-skirt", "--for", "Odile Farrant", "--spread",
                 "crosswise", *FEW_SECONDS)

    assert any(one["fits"] for one in answer["candidates"])


@pytest.mark.parametrize("half_drop", [(), ("--half-drop",)])
def test_two_panels_lie_on_folded_printed_cloth(tmp_path: Path, half_drop: tuple[str, ...]):
    """Off the roll there is room for both on the print; no warning and no path is shown."""
    pieces = tmp_path / "panels.json"
    pieces.write_text(json.dumps({"pieces": [{
        "name": "panel", "quantity": 2,
        "outline_mm": [[0, 0], [300, 0], [300, 200], [0, 200]]}]}))

    code, output = told(tmp_path, "lay", "--pieces", str(pieces), "--width", "114cm", "--repeat",
                        "60x80", "--spread", "lengthwise", "--seconds", "0.5", *half_drop)

    assert code == 0, output
    assert output.startswith("fits"), output
    assert ".py" not in output


def test_a_short_adult_is_drafted_as_an_adult(tmp_path: Path):
    """149 cm tall with a hip of 95 cm (ANSUR II: a twentieth of women are under 152.5 cm): the
    rise is no shorter than two centimetres under that of 151 cm, and no child's caution shows."""
    short, taller = (
        run(tmp_path, "draft", "trousers", "--measure", "hip=95cm", "--measure", "waist=78cm",
            "--measure", f"height={height}cm") for height in (149, 151))

    rises = [one["measurements_mm"]["body_rise"] for one in (short, taller)]
    assert rises[1] - rises[0] < 20, rises
    assert short["cautions"] == []


def test_a_length_said_of_the_trousers_does_not_lengthen_the_shirt(folder: Path):
    """Of two garments that both take a length, a bare one is asked about; a named one is the
    named garment's alone."""
    cut(folder, "Twill", "6m x 150cm", "--mass", "180 g/m2", "--washed")

    code, output = told(folder, "fit", "trousers", "shirt", "--for", "Ines Marlow", "--option",
                        "length=100cm", *FEW_SECONDS, "--json")

    made = json.loads(output)["pieces"] if code == 0 else ()
    longest = max((span_mm(p) for p in made if p["name"].startswith("shirt")), default=0.0)
    assert longest < 950, f"the shirt is {longest / 1000:.2f} m long"
    plain, named = (fit(folder, "trousers", "shirt", *more)["pieces"]
                    for more in ((), ("--option", "trousers.length=100cm")))
    shirts = [[p["outline_mm"] for p in some if p["name"].startswith("shirt")]
              for some in (plain, named)]
    assert shirts[0] == shirts[1]


def test_drill_and_jeans_cloth_come_before_light_poplin_for_trousers(folder: Path):
    """Better-suited cloth outranks a little less waste; 10.8 oz is not on the heavy side and
    16 oz is not refused (cloth_weights.csv: jeans are 12 to 14 oz, everyday ones up to 16)."""
    for name, mass, length in (("Poplin", 115, "2.4m"), ("Twill", 250, "3m"),
                               ("Denim", 365, "3m"), ("Heavy denim", 542, "3m")):
        cut(folder, name, f"{length} x 150cm", "--mass", f"{mass} g/m2", "--washed",
            "--construction", "woven")

    answer = fit(folder, "trousers")

    names = [one["name"] for one in answer["candidates"] if one["fits"]]
    assert set(names[:2]) == {"Twill", "Denim"}, names
    assert "Heavy denim" in names
    (denim,) = [one for one in answer["candidates"] if one["name"] == "Denim"]
    assert denim["suitability"] == []


def test_a_lining_that_was_weighed_comes_before_one_nobody_weighed(folder: Path):
    """And it is a line of the answer with its own lay, before anything is held."""
    wool = cut(folder, "Wool", "3m x 150cm", "--mass", "280 g/m2", "--washed",
               "--construction", "woven")
    cut(folder, "Nobody weighed it", "1.2m x 140cm", "--washed", "--construction", "woven")
    lining = cut(folder, "Lining", "2.5m x 140cm", "--mass", "75 g/m2", "--washed",
                 "--construction", "woven")

    answer = fit(folder, "a-line-skirt", "--option", "lining=full", "--cut", wool)

    (line,) = [one for one in answer["companions"] if one["role"] == "lining"]
    assert line["cut"] == lining, line["reason"]
    assert line["lay"]["placements"]


def test_cloth_whose_making_nobody_recorded_is_not_taken_for_woven(folder: Path):
    """It may be a jersey: it is offered with that doubt said, never without."""
    blank = cut(folder, "Soft blue", "3m x 150cm", "--mass", "200 g/m2", "--washed")

    (answer,) = fit(folder, "trousers", "--cut", blank)["candidates"]

    assert any("knit" in one["says"] for one in answer["suitability"]), answer["suitability"]


def test_no_number_of_garments_is_called_proven_while_more_come_out(tmp_path: Path):
    """Eighteen garments from eight long cuts: all are made, or it is not said to be proven."""
    garments = []
    for n in range(18):
        run(tmp_path, "person", "add", f"P{n}", "--body", "women", "--measure",
            f"hip={90 + 1.5 * n}cm", "--measure", f"waist={70 + 1.5 * n}cm", "--measure",
            "height=165cm")
        garments.append(f"{('shorts', 'a-line-skirt', 'apron')[n % 3]}@P{n}")
    for n in range(8):
        cut(tmp_path, f"Length {n}", "3m x 140cm", "--mass", "200 g/m2", "--washed",
            "--construction", "woven")

    answer = run(tmp_path, "plan", "choose", *garments, "--seconds", "3")

    made = sum(len(one["garments"]) for one in answer["made"])
    assert made == 18 or not answer["proven"], f"{made} of 18 made, and called proven"
