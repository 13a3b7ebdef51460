"""The record from the command line: every answer also as JSON, every refusal one sentence."""

from __future__ import annotations

import csv
import json

import pytest
from click.testing import CliRunner
from hypothesis import example, given
from hypothesis import strategies as st

from stash.cli.cloth_options import cloth_from, colour, percent
from stash.cli.person import parse_measure
from stash.errors import InvalidInput
from stash.model import Construction, FibreShare, NotionKind, Repeat
from stash.model.amounts import read_amount
from web.command import main


@pytest.fixture
def run(tmp_path):
    """Runs ``lengthwise`` on a stash of its own; JSON where it was asked for."""

    def run(*words, status=0):
        result = CliRunner().invoke(main, ["--data", str(tmp_path / "loft"), *words])
        assert result.exit_code == status, result.output
        if status:
            assert "Traceback" not in result.output
            return result.output.strip()
        return json.loads(result.output) if "--json" in words else result.output.strip()

    return run


@pytest.fixture
def code(run):
    """The code of a cut of 3.20 x 1.40 m."""
    return run("cut", "add", "Dune linen", "3.2m x 140cm", "--shrink", "4x2", "--json")["code"]


def test_a_cut_is_described_in_the_words_of_its_label(run):
    """Fibres by any name, weight, repeat, shrinkage, colour, price."""
    answer = run(
        "cut", "add", "Harbour stripe", "2 1/2 yd x 45 in", "--fibres", "55% linen 45% cotton",
        "--mass", "5 oz/yd2", "--repeat", "64mm", "--colour", "1F3A7A", "--one-way", "--json",
    )
    cut = answer["cut"]
    assert (cut["length_mm"], cut["width_mm"]) == (pytest.approx(2286.0), pytest.approx(1143.0))
    assert cut["fibres"][0] == {"fibre": "flax", "percent": 55.0}
    assert (cut["mass_gsm"], cut["colours"]) == (pytest.approx(169.5, abs=0.1), ["#1f3a7a"])
    assert cut["one_way"] is True


def test_a_new_cloth_is_presumed_by_its_name_and_what_is_said_wins(run):
    """Jeans weigh 407 to 475 g/m2 (denham glossary; heddels.com); a second cut is the same."""
    first = run("cut", "add", "blue denim", "3m x 150cm", "--json")["cut"]
    assert (first["construction"], first["mass_gsm"]) == ("woven", 441.0)
    assert first["presumed"] == ["construction", "mass_gsm"]
    assert "441 g/m² presumed" in run("cut", "show", first["code"])

    weighed = run("cut", "add", "black denim", "2m x 150cm", "--mass", "300 g/m2", "--json")["cut"]
    assert (weighed["mass_gsm"], weighed["presumed"]) == (300.0, ["construction"])
    assert run("cut", "add", "Blue denim", "1m x 150cm", "--json")["cut"]["mass_gsm"] == 441.0
    assert run("cut", "add", "A remnant", "1m x 1m", "--json")["cut"]["presumed"] == []


def test_using_some_takes_it_off_and_undo_brings_it_back(run, code):
    """1.20 m of 3.20 m; the answer names the entry, and undo without a number takes it."""
    used = run("cut", "off", code, "1.2m", "--json")
    assert used["cut"]["length_mm"] == 2000.0
    undone = run("undo", "--json")
    assert undone["undoes"] == used["event"]
    shown = run("cut", "show", code, "--json")
    assert shown["length_mm"] == 3200.0
    assert [(e["kind"], e["stands"]) for e in shown["history"]] == [
        ("undo", True), ("cut-off", False), ("receipt", True),
    ]


def test_what_remains_is_measured_washed_moved_and_given_away(run, code):
    """The life of a cut."""
    assert run("cut", "remains", code, "2m", "--json")["cut"]["length_mm"] == 2000.0
    assert run("cut", "wash", code, "--json")["cut"]["length_mm"] == 1920.0
    measured = run("cut", "measure", code, "1.9m x 136cm", "--json")["cut"]
    assert (measured["length_mm"], measured["width_mm"]) == (1900.0, 1360.0)
    assert run("cut", "move", code, "Shelf 2", "--json")["cut"]["place"] == "Shelf 2"
    assert len(run("cut", "list", "--place", "shelf 2", "--json")["cuts"]) == 1
    assert run("cut", "gone", code, "--given", "--json")["cut"]["gone"] == "given away"
    assert run("cut", "list", "--json")["cuts"] == []
    assert len(run("cut", "list", "--gone", "--json")["cuts"]) == 1


def test_a_wash_that_was_measured_teaches_how_the_cloth_shrinks(run, code):
    """3.20 x 1.40 m became 3.04 x 1.386 m: 5 % along, 1 % across, and so will its other cut."""
    other = run("cut", "add", "Dune linen", "1m x 140cm", "--shrink", "4x2", "--json")["code"]
    washed = run("cut", "wash", code, "304cm x 138.6cm", "--for-cloth", "--json")
    assert (washed["shrank_along_pct"], washed["shrank_across_pct"]) == (5.0, 1.0)
    assert run("cut", "show", other, "--json")["shrink_along_pct"] == 5.0
    assert run("cut", "wash", other, "--json")["cut"]["length_mm"] == 950.0


def test_places_have_labels_and_things_lie_in_them(run, code):
    """Found by name or label, in any case."""
    shelf = run("place", "add", "Shelf 1", "--json")["code"]
    run("cut", "move", code, shelf)
    assert run("place", "show", "shelf 1", "--json")["contents"] == [code]
    assert run("place", "show", shelf, "--json")["name"] == "Shelf 1"
    assert [p["code"] for p in run("place", "list", "--json")["places"]] == [shelf]
    assert "no place" in run("place", "show", "Attic", status=1)


def test_used_up_is_nothing_left(run, code):
    """“0” needs no unit."""
    assert run("cut", "remains", code, "0", "--json")["cut"]["gone"] == "used up"


def test_a_bin_is_taken_from_and_counted(run):
    """Buttons by number, elastic by length."""
    buttons = run("bin", "add", "button", "Shell", "12", "--size", "18L", "--json")["code"]
    assert run("bin", "take", buttons, "5", "--json")["bin"]["amount"] == 7
    assert run("bin", "count", buttons, "6", "--json")["bin"]["amount"] == 6
    elastic = run("bin", "add", "elastic", "Woven", "3m", "--size", "25mm", "--json")["code"]
    assert run("bin", "take", elastic, "78cm", "--json")["bin"]["amount"] == 2220.0
    assert "2.22 m" in run("bin", "show", elastic)
    listed = run("bin", "list", "--kind", "button", "--json")["bins"]
    assert [held["code"] for held in listed] == [buttons]


def test_measurements_of_a_person_are_added_to_those_on_record(run):
    """What is measured today does not forget what was measured before."""
    run("person", "add", "Odile Farrant", "--measure", "hip=104", "--measure", "waist=82cm")
    run("person", "add", "odile farrant", "--measure", "inside leg=78cm")
    person = run("person", "show", "ODILE FARRANT", "--json")
    assert person["name"] == "Odile Farrant"
    assert person["measurements_mm"] == {"hip": 1040.0, "waist": 820.0, "inside_leg": 780.0}


def test_the_whole_stash_moves_by_one_file(run, code, tmp_path):
    """Out of one folder, into another, the same."""
    file = str(tmp_path / "all.zip")
    run("keep", "copy", file)
    other = ["--data", str(tmp_path / "other")]
    assert CliRunner().invoke(main, [*other, "keep", "bring", file]).exit_code == 0
    result = CliRunner().invoke(main, [*other, "cut", "show", code, "--json"])
    assert json.loads(result.output) == run("cut", "show", code, "--json")
    assert run("keep", "check", "--json")["sound"] is True


def test_what_is_here_opens_in_a_spreadsheet(run, code, tmp_path):
    """Lengths in millimetres, counts as numbers, and no text that would be reckoned."""
    run("bin", "add", "button", "=1+1", "12", "--size", "18L")
    run("bin", "add", "elastic", "Woven, “soft”", "3m")
    run("keep", "table", str(tmp_path / "stash.csv"))
    with (tmp_path / "stash.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["what"] for row in rows] == ["cut", "elastic", "button"]
    assert (rows[0]["code"], rows[0]["length_mm"], rows[0]["width_mm"]) == (
        code, "3200.0", "1400.0",
    )
    assert (rows[1]["name"], rows[1]["length_mm"]) == ("Woven, “soft”", "3000.0")
    assert (rows[2]["name"], rows[2]["amount"]) == ("'=1+1", "12.0")
    assert "cannot be written" in run("keep", "table", str(tmp_path / "no" / "x.csv"), status=1)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("cut", "off", "{code}", "9m"), "measure the cut again"),
        (("cut", "off", "{code}", "--", "-1m"), "is not a length"),
        (("cut", "off", "{code}", "1e9m"), "is not a length"),
        (("cut", "off", "ZZZZZZ", "1m"), "wrong character"),
        (("cut", "off", "hello", "1m"), "not a label code"),
        (("cut", "show", "222222"), "no cut 222222"),
        (("cut", "add", "X", "3m"), "length x width"),
        (("cut", "add", " ", "3m x 1m"), "name"),
        (("cut", "add", "X", "3m x 1m", "--fibres", "unobtainium 100%"), "not a fibre name"),
        (("cut", "add", "X", "3m x 1m", "--colour", "reddish"), "not a colour"),
        (("cut", "add", "X", "3m x 1m", "--price", "cheap"), "not a price"),
        (("cut", "add", "X", "3m x 1m", "--shrink", "a lot"), "percentage"),
        (("bin", "add", "button", "X", "2.5"), "whole number"),
        (("bin", "add", "elastic", "X", "5"), "unit"),
        (("person", "show", "Nobody"), "add a person"),
        (("person", "add", "X", "--measure", "waist"), "like hip=100cm"),
        (("person", "add", "X", "--measure", "waist=1mm"), "cannot be the waist"),
        (("undo", "999"), "no entry 999"),
        (("keep", "bring", "nowhere.zip"), "no file"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(run, code, words, sentence):
    """Status 1, what is wrong and what to do, and no traceback."""
    said = run(*(word.format(code=code) for word in words), status=1)
    assert sentence in said
    assert "\n" not in said


def test_nothing_to_take_back(run):
    """An empty ledger has nothing to undo."""
    assert "nothing to take back" in run("undo", status=1)


TYPED = {
    "fibres": "", "construction": "woven", "mass": None, "one_way": False, "repeat": None,
    "half_drop": False, "stretch": "0", "shrink": "0", "opaque": None, "colours": (),
    "price": None, "care": "", "notes": "",
}


def test_options_make_a_cloth():
    """Each option ends up in its own field, in millimetres and minor units."""
    cloth = cloth_from("  Dune   linen ", {
        **TYPED, "fibres": "CO 100", "construction": "knit", "repeat": "64cm x 32cm",
        "half_drop": True, "stretch": "20%", "shrink": "4,5 x 2", "price": "18.5",
    })
    assert (cloth.name, cloth.construction) == ("Dune linen", Construction.KNIT)
    assert cloth.fibres == (FibreShare("cotton", 100.0),)
    assert cloth.repeat == Repeat(lengthwise_mm=640.0, crosswise_mm=320.0, half_drop=True)
    assert (cloth.stretch_across_pct, cloth.shrink_along_pct, cloth.shrink_across_pct) == (
        20.0, 4.5, 2.0,
    )
    assert cloth.price_minor_per_m == 1850


@example("0\x1f")  # white to a pattern, but not to a number
@example("7²")  # a digit, but no number
@given(st.text(max_size=30))
@example("0\x1f")  # white space to a pattern, none to float()
def test_no_text_breaks_a_parser(sentence, text):
    """A value or InvalidInput, whatever is typed."""
    for parse in (
        colour,
        parse_measure,
        lambda t: percent(t, "x"),
        lambda t: read_amount(NotionKind.BUTTON, t),
        lambda t: read_amount(NotionKind.THREAD, t),
        lambda t: cloth_from("x", {**TYPED, "shrink": t}),
        lambda t: cloth_from("x", {**TYPED, "repeat": t}),
        lambda t: cloth_from("x", {**TYPED, "price": t}),
        lambda t: cloth_from("x", {**TYPED, "fibres": t}),
        lambda t: cloth_from("x", {**TYPED, "mass": t}),
    ):
        try:
            parse(text)
        except InvalidInput as error:
            assert sentence(error).endswith((".", "?"))


def test_about_half_a_spool_is_used_and_then_all_of_it(run):
    """Of what is measured exactly half; the rest when it is used up."""
    spool = run("bin", "add", "thread", "Moss thread", "200m", "--json")["code"]
    assert run("bin", "take", spool, "about half", "--json")["bin"]["amount"] == 100_000
    assert run("bin", "take", spool, "used up", "--json")["bin"]["amount"] == 0
