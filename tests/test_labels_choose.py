"""Labels made from the record, and those that no longer say the truth."""

from __future__ import annotations

import json
import re

import pytest
from click.testing import CliRunner

from labels.choose import as_printed, changed, in_place, labels_for
from labels.content import LabelKind, care_line
from stash.errors import NotFound
from stash.model import Bin, Cloth, Cut, FibreShare, Notion, NotionKind, Outline
from stash.sentences import METRIC, Reader
from stash.store import open_stash
from stash.units import System
from web.command import main

GERMAN = Reader(System.METRIC, "de")
LINEN = Cloth(name="Harbour linen", fibres=(FibreShare("cotton", 45), FibreShare("linen", 55)))


@pytest.fixture
def stash(tmp_path):
    """A stash with one cut, one bin and one labelled place."""
    with open_stash(tmp_path / "loft") as stash:
        stash.cuts.receive(
            Cut(code="", cloth=LINEN, outline=Outline.rectangle(2400, 1380), place="Shelf 3")
        )
        horn = Notion(kind=NotionKind.BUTTON, name="Horn buttons", size_mm=11.43)
        stash.bins.receive(Bin(code="", notion=horn, amount=9, place="Shelf 3"))
        stash.places.receive("Shelf 3")
        yield stash


def test_a_cut_says_name_width_remaining_length_and_fibres(stash):
    """Greatest share of fibre first, as Regulation (EU) 1007/2011 article 9 orders them."""
    label = labels_for(stash, [stash.cuts.all()[0].code], METRIC)[0]

    assert (label.name, label.size, label.fibre, label.place) == (
        "Harbour linen", "2.40 m × 138 cm", "55 % linen, 45 % cotton", "Shelf 3"
    )


@pytest.mark.parametrize(
    ("care", "said"),
    [("40° gentle", "wash at 40° gentle"), ("dry clean", "dry clean"), ("", "")],
)
def test_care_is_said_in_plain_words(care, said):
    """A bare temperature is for washing (ISO 3758, from memory)."""
    assert care_line(care, METRIC) == said


def test_a_label_speaks_the_persons_units(stash):
    """Inches and yards when she has chosen them."""
    assert labels_for(stash, [stash.cuts.all()[0].code], Reader(System.INCHES))[0].size == (
        "2 5/8 yd × 54 3/8 in"
    )


def test_a_label_speaks_the_persons_language(stash):
    """German fibres, a decimal comma; names stay as they were typed."""
    label = labels_for(stash, [stash.cuts.all()[0].code], GERMAN)[0]

    assert (label.name, label.size, label.fibre) == (
        "Harbour linen", "2,40 m × 138 cm", "55 % Leinen, 45 % Baumwolle"
    )


def test_another_language_chosen_since_makes_no_label_untrue(stash):
    """It is compared with what it said to whom it was printed for; a change is said anew."""
    label = labels_for(stash, [stash.cuts.all()[0].code], METRIC)[0]
    stash.labels.printed({label.code: as_printed(label, METRIC)})
    assert changed(stash, GERMAN) == []

    stash.cuts.cut_off(label.code, 400.0, token="t1")

    assert [label.size for label in changed(stash, GERMAN)] == ["2,00 m × 138 cm"]


def test_everything_in_a_place_is_printed(stash):
    """The cut and the bin, whatever the case of the place's name."""
    found = in_place(stash, "shelf 3", METRIC)
    assert {label.kind for label in found} == {LabelKind.CUT, LabelKind.BIN}


def test_an_empty_place_is_said(stash, sentence):
    """A mistyped place is a sentence, not an empty sheet."""
    with pytest.raises(NotFound) as refused:
        in_place(stash, "Shelf 33", METRIC)
    assert re.search("check the place’s name", sentence(refused.value))


def test_a_code_that_was_never_met_is_said(stash, sentence):
    """It may be another stash's label."""
    stash.labels.reserve(1)
    with pytest.raises(NotFound) as refused:
        labels_for(stash, ["222222"], METRIC)
    assert re.search("scan or type it once", sentence(refused.value))


def test_a_label_is_out_of_date_once_its_cut_was_used(stash):
    """Nothing changed: nothing to print; after cutting off, that one label."""
    labels = labels_for(stash, [stash.cuts.all()[0].code, stash.bins.all()[0].code], METRIC)
    stash.labels.printed({label.code: as_printed(label, METRIC) for label in labels})
    assert changed(stash, METRIC) == []

    stash.cuts.cut_off(labels[0].code, 400.0, token="t1")

    assert [(label.code, label.size) for label in changed(stash, METRIC)] == [
        (labels[0].code, "2.00 m × 138 cm")
    ]


def test_a_blank_label_that_was_given_to_something_has_changed(stash):
    """What was printed blank can now say what it is on."""
    code = stash.labels.reserve(1)[0]
    stash.labels.printed({code: as_printed(labels_for(stash, [code], METRIC)[0], METRIC)})
    stash.cuts.receive(Cut(code="", cloth=LINEN, outline=Outline.rectangle(500, 500)), code=code)

    assert [label.code for label in changed(stash, METRIC)] == [code]


def run(tmp_path, *args: str):
    """The command as a person types it, on the stash of this test."""
    return CliRunner().invoke(main, ["--data", str(tmp_path / "loft"), "labels", *args])


def test_blank_labels_are_printed_and_their_codes_told(tmp_path):
    """As a program reads it: every code is new and reserved."""
    out = tmp_path / "sheet.pdf"
    answer = run(tmp_path, "--blank", "24", "--sheet", "a4-24", "--out", str(out), "--json")
    codes = json.loads(answer.stdout)["codes"]

    assert len(set(codes)) == 24
    assert out.read_bytes().startswith(b"%PDF")
    with open_stash(tmp_path / "loft") as stash:
        assert {stash.labels.state(code) for code in codes} == {"blank"}


def test_chosen_codes_may_follow_one_option(tmp_path, stash):
    """``--for A B`` and ``--for A --for B`` print the same."""
    codes = [stash.cuts.all()[0].code, stash.bins.all()[0].code]
    spread = run(tmp_path, "--for", *codes, "--out", str(tmp_path / "a.pdf"), "--json")
    repeated = run(tmp_path, "--for", codes[0], "--for", codes[1], "--roll", "60mm",
                   "--out", str(tmp_path / "b.pdf"), "--json")

    assert json.loads(spread.stdout)["codes"] == json.loads(repeated.stdout)["codes"] == codes


def test_the_next_free_place_is_told(tmp_path):
    """A part-used sheet goes on where it stopped."""
    answer = run(tmp_path, "--blank", "3", "--start", "5", "--out", str(tmp_path / "a.pdf"),
                 "--json")

    assert json.loads(answer.stdout)["next_start"] == 8


def test_the_printers_shift_is_kept_for_next_time(tmp_path):
    """Given once, used from then on."""
    run(tmp_path, "--blank", "1", "--shift", "0.5,-1", "--out", str(tmp_path / "a.pdf"))
    run(tmp_path, "--blank", "1", "--out", str(tmp_path / "b.pdf"))

    with open_stash(tmp_path / "loft") as stash:
        assert stash.settings.get("printer_shift_mm") == [0.5, -1.0]


@pytest.mark.parametrize(
    "args",
    [[], ["--blank", "0"], ["--blank", "-4"], ["--blank", "2", "--changed"], ["--changed"],
     ["--for", "nonsense"], ["--blank", "1", "--sheet", "b5"], ["--blank", "1", "--start", "99"],
     ["--blank", "1", "--grid", "3x8"], ["--blank", "1", "--roll", "2mm"], ["--places"],
     ["--blank", "1", "--shift", "left"], ["--blank", "1", "--address", "not an address"],
     ["--blank", "1", "--sheet", "a4-24", "--roll", "60mm"], ["--place", "nowhere"]],
)
def test_what_cannot_be_printed_is_one_sentence(tmp_path, args):
    """Exit status 1, a sentence that ends, no traceback and no file."""
    out = tmp_path / "a.pdf"
    answer = run(tmp_path, *args, "--out", str(out))

    assert answer.exit_code == 1
    assert answer.stderr.strip().endswith(".")
    assert not out.exists()


def test_every_place_gets_a_label(tmp_path, stash):
    """``--places`` makes a code for a place that had none."""
    stash.cuts.receive(
        Cut(code="", cloth=LINEN, outline=Outline.rectangle(500, 500), place="Blue chest")
    )
    answer = run(tmp_path, "--places", "--layout", "place-front",
                 "--out", str(tmp_path / "a.pdf"), "--json")

    assert len(json.loads(answer.stdout)["codes"]) == 2
    assert stash.places.find("Blue chest") is not None


def test_a_wrong_out_folder_is_said(tmp_path):
    """The file's folder must be there."""
    answer = run(tmp_path, "--blank", "1", "--out", str(tmp_path / "no" / "a.pdf"))

    assert answer.exit_code == 1
    assert "cannot be written" in answer.stderr
