"""``lengthwise lay``: pieces from a file, one answer out, every bad input one sentence."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from web.command import main

LEG = {"name": "leg", "outline_mm": [[0, 0], [900, 20], [900, 250], [300, 330], [0, 240]],
       "quantity": 1, "mirrored_pair": True, "turns_deg": [0, 180]}
BAND = {"name": "band", "outline_mm": [[0, 0], [700, 0], [700, 90], [0, 90]]}


@pytest.fixture
def ask(tmp_path):
    """Run the command on a list of pieces (or a text) and give its result."""

    def run(pieces, *words: str):
        file = tmp_path / "pieces.json"
        text = pieces if isinstance(pieces, str) else json.dumps({"pieces": pieces})
        file.write_text(text, encoding="utf-8")
        words = [w.replace("DIR", str(tmp_path)) for w in words]
        return CliRunner().invoke(main, ["lay", "--pieces", str(file), *words])

    return run


def test_a_cut_that_serves_gives_the_placements(ask):
    """Quantity 1 of a mirrored pair means one pair; the band is a third piece."""
    result = ask([LEG, BAND], "--width", "114cm", "--length", "150cm", "--json")
    answer = json.loads(result.output)
    assert answer["answer"] == "fits"
    assert sorted(p["piece"] for p in answer["placements"]) == ["band#1", "leg#1", "leg#2"]
    assert [p["mirrored"] for p in answer["placements"] if p["piece"] == "leg#2"] == [True]
    assert answer["length_mm"] <= 1500
    assert answer["seconds"] >= 0


def test_without_a_length_the_shortest_strip_is_given(ask):
    """Nothing can be shorter than the leg."""
    answer = json.loads(ask([LEG, BAND], "--width", "114cm", "--seconds", "1", "--json").output)
    assert answer["length_mm"] == pytest.approx(900, abs=0.1)
    leg_mm2, band_mm2 = 250_500, 63_000
    area = 2 * leg_mm2 + band_mm2
    assert answer["utilisation"] == pytest.approx(area / (1140 * 900), abs=1e-3)


def test_pieces_are_tilted_only_when_that_is_asked_for(ask):
    """A band drawn 3 degrees askew is 60 mm wider than itself, until it may be tilted so far."""
    askew = [[0, 0], [1000, 52.4], [994.8, 152.3], [-5.2, 99.9]]
    words = ("--width", "11cm", "--length", "110cm", "--json")
    band = {"name": "band", "outline_mm": askew, "quantity": 1}
    assert json.loads(ask([band], *words).output)["answer"] == "impossible"
    tilted = json.loads(ask([band], *words, "--off-grain", "4").output)
    assert tilted["answer"] == "fits"
    assert tilted["placements"][0]["turn_deg"] == pytest.approx(357, abs=0.1)


def test_a_cut_too_short_is_impossible_and_says_why(ask):
    """A result, not an error: exit status 0."""
    result = ask([LEG], "--width", "114cm", "--length", "80cm", "--json")
    answer = json.loads(result.output)
    assert (result.exit_code, answer["answer"]) == (0, "impossible")
    assert answer["reason"] == (
        "The leg is 90 cm along the grain and the cut is only 80 cm long."
    )
    assert answer["short_mm"] == pytest.approx(100, abs=0.5)


def test_an_irregular_cut_with_a_flaw_comes_from_a_file(ask, tmp_path):
    """Outline and holes, and the drawing goes where it is asked to."""
    outline = {"outline_mm": [[0, 0], [2000, 0], [1800, 1100], [0, 1140]],
               "holes_mm": [[[400, 500], [460, 500], [460, 560], [400, 560]]]}
    (tmp_path / "cut.json").write_text(json.dumps(outline))
    result = ask([LEG, BAND], "--outline", "DIR/cut.json", "--svg", "DIR/lay.svg", "--json")
    assert json.loads(result.output)["answer"] == "fits"
    assert (tmp_path / "lay.svg").read_text(encoding="utf-8").startswith("<svg")


def test_the_same_seed_and_iterations_give_the_same_answer(ask):
    """But for the seconds it took."""
    words = ("--width", "60cm", "--seed", "4", "--iterations", "200", "--seconds", "600", "--json")
    first, second = (json.loads(ask([LEG, BAND], *words).output) for _ in range(2))
    assert first | {"seconds": 0} == second | {"seconds": 0}


@pytest.mark.parametrize("words", [
    ("--one-way",), ("--spread", "lengthwise"), ("--spread", "crosswise"), ("--spread", "best"),
    ("--repeat", "64x32mm"), ("--repeat", "64x32mm", "--half-drop"), ("--turns", "0,90"),
    ("--clearance", "5mm", "--edge", "1cm"),
])
def test_every_habit_of_the_table_is_an_option(ask, words):
    """Each still gives a lay off the roll."""
    result = ask([LEG, BAND], "--width", "150cm", "--seconds", "0.3", *words, "--json")
    assert json.loads(result.output)["answer"] == "fits"


def test_on_a_repeat_pieces_with_no_match_points_match_at_their_origin(ask):
    """Equal pieces then show the print alike, as a repeat is given for; 64 x 32 mm."""
    answer = json.loads(
        ask([LEG, BAND], "--width", "150cm", "--seconds", "0.3", "--repeat", "64x32mm",
            "--json").output
    )
    for placed in answer["placements"]:
        assert placed["x_mm"] / 64 == pytest.approx(round(placed["x_mm"] / 64), abs=1e-3)
        assert placed["y_mm"] / 32 == pytest.approx(round(placed["y_mm"] / 32), abs=1e-3)


def test_pieces_may_fill_a_cut_to_the_last(ask):
    """Three squares of 50 cm, one behind another, come out of exactly 1.5 m and not of less."""
    square = [{"name": "s", "outline_mm": [[0, 0], [500, 0], [500, 700], [0, 700]], "quantity": 3}]
    cloth = ("--width", "114cm", "--json", "--seconds", "0.3")
    assert json.loads(ask(square, *cloth, "--length", "1500mm").output)["answer"] == "fits"
    assert json.loads(ask(square, *cloth, "--length", "1499mm").output)["answer"] == "impossible"


def test_the_cost_of_matching_is_told_with_a_repeat_only(ask):
    """In millimetres and in words; three bands of 70 cm begin every 96 cm on a 48 cm print."""
    words = ("--width", "9.1cm", "--seconds", "0.3", "--repeat", "480x0mm")
    bands = [BAND | {"quantity": 3, "match_points_mm": [[0, 0]]}]
    answer = json.loads(ask(bands, *words, "--turns", "0", "--json").output)
    assert answer["matching_costs_mm"] == pytest.approx(2 * 260, abs=0.3)
    assert "Matching the print takes 0.52 m of cloth" in ask(bands, *words, "--turns", "0").output
    assert "matching_costs_mm" not in json.loads(ask([BAND], "--width", "1m", "--json").output)


def test_all_match_points_lie_on_the_print_when_they_are_whole_repeats_apart(ask):
    """128 mm is twice 64; 0.4 mm of drawing error is let pass."""
    two = [BAND | {"match_points_mm": [[10, 20], [138.4, 20]]}]
    words = ("--width", "50cm", "--seconds", "0.2", "--repeat", "64x0mm", "--json")
    placed, = json.loads(ask(two, *words).output)["placements"]
    at = placed["x_mm"] + (10 if placed["turn_deg"] == 0 else -10)
    assert at / 64 == pytest.approx(round(at / 64), abs=1e-3)


def test_match_points_that_cannot_all_lie_on_the_print_name_their_piece(ask):
    """140 - 10 is 2 mm more than two repeats of 64."""
    two = [BAND | {"match_points_mm": [[10, 20], [140, 20]]}]
    result = ask(two, "--width", "50cm", "--repeat", "64x0mm")
    assert result.exit_code == 0
    assert "impossible: The match points of “band”" in result.output
    assert "2 mm off a whole repeat" in result.output


def piece(**changes) -> list[dict]:
    """One band with something changed."""
    return [BAND | changes]


@pytest.mark.parametrize(("pieces", "sentence"), [
    (piece(outline_mm=[[0, 0], [90, 90], [90, 0], [0, 90]]), "crosses itself"),
    (piece(quantity=0), "it must be at least once"),
    (piece(quantity=3, mirrored_pair=True), "must be even, not 3"),
    (piece(quantity=1.5), "must be a whole number"),
    (piece(outline_mm=[[0, 0], [float("nan"), 0], [5, 5]]), "not a plain number"),
    (piece(outline_mm=[[k, k % 7] for k in range(100_000)]), "100,000 points"),
    (piece(outline_mm=[[0, 0], [5]]), "at least three"),
    (piece(turns_deg=[]), "1 to 16 angles"),
    ([], "no pieces"),
    ("not json", "is not JSON"),
    ("[1, 2]", "no pieces"),
    ("[" * 100_000, "is not JSON"),
])
def test_bad_pieces_are_refused_in_one_sentence(ask, pieces, sentence):
    """Exit status 1, the sentence on the error stream, no traceback."""
    result = ask(pieces, "--width", "114cm")
    assert result.exit_code == 1
    assert sentence in result.stderr
    assert result.stderr.count("\n") == 1


@pytest.mark.parametrize(("words", "sentence"), [
    ((), "--width 114cm"),
    (("--width", "wide"), "not a length"),
    (("--width", "-5cm"), "not a length"),
    (("--outline", "missing.json"), "cannot be read"),
    (("--width", "90cm", "--repeat", "64"), "not a size"),
    (("--width", "90cm", "--turns", "up"), "not a list of turns"),
])
def test_bad_measures_are_refused_in_one_sentence(ask, words, sentence):
    """Each says what to write instead."""
    result = ask([BAND], *words)
    assert result.exit_code == 1
    assert sentence in result.stderr
