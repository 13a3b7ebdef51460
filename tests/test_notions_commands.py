"""``lengthwise buttons`` and ``lengthwise thread`` as another program calls them."""

from __future__ import annotations

import json
import re

import pytest
from click.testing import CliRunner

from web.command import main


def run(*words: str):
    """One command, as typed."""
    return CliRunner().invoke(main, list(words))


def test_buttons_answers_with_places_hole_and_what_holds():
    """Three 20 mm buttons on 62 cm: an answer, not an error."""
    answer = json.loads(
        run("buttons", "--front", "62cm", "--diameter", "20mm", "--count", "3", "--json").output
    )

    assert answer["count"] == 3
    assert len(answer["positions_mm"]) == 3
    assert answer["buttonhole_mm"] == 23.0
    assert answer["overlap_least_mm"] == 15.0
    assert answer["holds_closed"] is False
    assert answer["counts_that_hold"][0] == 6


def test_buttons_puts_one_at_the_bust_and_reads_lignes():
    """Bust 24 cm below the neck, buttons of 18L."""
    answer = json.loads(
        run("buttons", "--front", "62cm", "--diameter", "18L", "--bust", "24cm", "--json").output
    )

    assert answer["ligne"] == 18.0
    assert answer["holds_closed"] is True
    assert min(abs(p - 240) for p in answer["positions_mm"]) <= 15


def test_thread_adds_its_seams():
    """Two seams, 1.5 m of lockstitch: 2.64 times that and 15 %."""
    answer = json.loads(
        run("thread", "--class", "301", "--seam", "100cm", "--seam", "50cm", "--json").output
    )

    assert answer["seam_mm"] == 1500.0
    assert answer["thread_mm"] == pytest.approx(1500 * 2.64 * 1.15)
    assert answer["needle_mm"] == answer["under_mm"]


def test_thread_reproduces_the_published_lockstitch_from_the_command_line():
    """301 at 0.01 in and 10 stitches per inch is 2.20 (textilecalculations.com)."""
    answer = json.loads(
        run("thread", "--class", "301", "--seam", "1m", "--thickness", "0.01in",
            "--stitch-length", "0.1in", "--waste", "0", "--json").output
    )

    assert answer["ratio"] == 2.2
    assert answer["thread_mm"] == 2200.0


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("thread", "--class", "999", "--seam", "1m"), "not a stitch class"),
        (("thread", "--seam", "-1m"), "not a length"),
        (("thread", "--seam", "1m", "--stitch-length", "9m"), "cannot be sewn"),
        (("buttons", "--front", "62cm", "--diameter", "20mm", "--count", "0"), "cannot be spaced"),
        (("buttons", "--front", "1cm", "--diameter", "2cm"), "too short"),
        (("buttons", "--front", "62cm", "--diameter", "20cm"), "measure it again"),
        (("buttons", "--front", "cloth", "--diameter", "2cm"), "not a length"),
    ],
)
def test_bad_input_is_one_sentence(words, says):
    """Exit status 1, no traceback."""
    result = run(*words)

    assert result.exit_code == 1
    assert says in result.output
    assert "Traceback" not in result.output


def test_a_person_reads_a_sentence():
    """Without --json."""
    assert "Buttonholes 23 mm" in run("buttons", "--front", "62cm", "--diameter", "20mm").output
    assert "lockstitch (301)" in run("thread", "--seam", "1m").output


@pytest.mark.parametrize("seam", ["65cm", "1m", "2.37m", "12.3m", "123.4m"])
def test_the_parts_of_thread_add_up_to_the_eye_and_it_is_told_as_a_shop_sells_it(seam):
    """The total is what needle and looper come to as they are shown; nobody buys 12 m of it."""
    said = run("thread", "--class", "504", "--seam", seam).output

    total, needle, looper = (
        float(re.search(rf"([\d.]+) m {word}", said)[1])
        for word in ("of thread", "needle", "looper")
    )
    assert total == pytest.approx(needle + looper, abs=1e-9)
    assert re.search(r"A shop sells \d+ cones of [\d,]+ m\.", said)
