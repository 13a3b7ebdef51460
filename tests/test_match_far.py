"""As far as it goes: the largest value of an option that still has a lay."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest
from click.testing import CliRunner

from stash.errors import InvalidInput
from stash.lay import Budget, LayTask, check, screen, solve
from stash.match.far.growing import GrowingCount, can_grow, growing
from stash.match.far.over_cuts import Seconds, over_cuts
from stash.match.far.reach import Ended, reach
from stash.match.far.trade_off import curve
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.match.strip_lays import Table
from stash.model import Cloth, Cut, Outline, Piece
from web.command import main

BODY = {"hip": 1040.0, "waist": 820.0}
SKIRT = Order(garment="a-line-skirt", measurements_mm=BODY)


def cut(length_mm: float, width_mm: float) -> Cut:
    """A washed length."""
    return Cut(code="C", cloth=Cloth(name="drill"), outline=Outline.rectangle(length_mm, width_mm),
               washed=True)


def tries(count: int = 6) -> Effort:
    """Effort counted in tries, not in seconds: a clock that has so many ticks."""
    def clock():
        left = [count]

        def over() -> bool:
            left[0] -= 1
            return left[0] < 0

        return over

    return Effort(each=clock)


def counted(rounds: int) -> Seconds:
    """A stash's clocks counted in looks at them, so many in each part."""
    left = [rounds]

    def part(parts: int):
        own = [max(rounds // parts, 1)]

        def over() -> bool:
            own[0] -= 1
            return own[0] < 0

        return over

    def over() -> bool:
        left[0] -= 1
        return left[0] < 0

    return Seconds(share=part, over=over)


def square(side_mm: float) -> Piece:
    """A napkin."""
    return Piece(name="napkin", outline_mm=Outline.rectangle(side_mm, side_mm).ring_mm)


@pytest.mark.parametrize(("length_mm", "width_mm", "side_mm", "count"), [
    (900, 900, 450, 4), (1350, 1400, 450, 9), (1000, 1400, 450, 6), (449, 1400, 450, 0),
])
def test_napkins_are_counted_by_arithmetic(length_mm, width_mm, side_mm, count):
    """floor(length / side) x floor(width / side): arithmetic, no source needed."""
    found = reach(GrowingCount((square(side_mm),)), cut(length_mm, width_mm), Table(), tries())

    assert (found.value if found else 0) == count


def test_the_lay_is_sound_and_a_step_more_is_refused_or_not_found():
    """Checked by the separate checker; beside a plain search one step farther."""
    growing_, here = growing(SKIRT, "length"), cut(1500, 1140)
    found = reach(growing_, here, Table(), tries())
    task = LayTask(pieces=found.laid.pieces, cloth=here.outline)

    assert not check(task, found.laid.lay)
    assert found.proved_at_most is None or found.value < found.proved_at_most
    farther = growing_.pieces(found.value + 25)
    assert not solve(LayTask(pieces=farther, cloth=here.outline), Budget(iterations=400)).lay


def test_the_proof_is_a_screens_proof_on_that_very_value():
    """"Less than 70 cm" is said only of a value that the screen refutes."""
    growing_, here = growing(SKIRT, "length"), cut(1500, 1140)
    found = reach(growing_, here, Table(), tries())

    pieces = growing_.pieces(found.proved_at_most)
    assert screen(LayTask(pieces=pieces, cloth=here.outline)) is not None


def test_the_drafts_own_range_is_said_to_end_it():
    """On 6 m the skirt's longest length comes out: the option ends, not the cloth."""
    found = reach(growing(SKIRT, "length"), cut(6000, 1500), Table(), tries())

    assert found.ended is Ended.OPTION
    assert found.proved_at_most is None


def test_nothing_comes_of_a_scrap():
    """Not even the shortest skirt."""
    assert reach(growing(SKIRT, "length"), cut(300, 300), Table(), tries()) is None


@pytest.mark.parametrize("seam_mm", [5.0, 15.0])
def test_small_cases_agree_with_trying_every_step(seam_mm):
    """Brute force over every 5 mm from the top: the first that lies, within two steps."""
    order = Order(garment="tote-bag", options={"seam": seam_mm})
    growing_, here = growing(order, can_grow(order)[0]), cut(700, 900)
    found = reach(growing_, here, Table(), tries(12))
    values = range(int(growing_.most), int(growing_.least) - 1, -5)
    best = next(
        value for value in values
        if (pieces := growing_.pieces(float(value)))
        and solve(LayTask(pieces=pieces, cloth=here.outline), Budget(iterations=300)).lay
    )

    assert abs(found.value - best) <= 10


def test_over_many_cuts_each_gets_a_first_answer_and_the_farthest_the_rest_of_the_time():
    """Counted in tries: as far as each alone within four steps, and a wide length as far as
    a narrower one of its length."""
    cuts = [replace(cut(*size), code=f"C{n}") for n, size in enumerate(
        ((1500, 1140), (1500, 1400), (1200, 1140), (300, 300)))]
    found = over_cuts(growing(SKIRT, "length"), cuts, Table(), counted(60))
    by_code = {g.tries.cut.code: g for g in found}
    alone = {c.code: reach(growing(SKIRT, "length"), c, Table(), tries()) for c in cuts}

    assert all(growth.looked for growth in found)
    assert [g.may_reach for g in found] == sorted((g.may_reach for g in found), reverse=True)
    assert by_code["C3"].reach() is None
    for code in ("C0", "C1", "C2"):
        own = by_code[code].reach()
        assert not check(LayTask(pieces=own.laid.pieces, cloth=own.cut.outline), own.laid.lay)
        assert own.value >= alone[code].value - 20
    assert by_code["C1"].best.value >= by_code["C0"].best.value


def test_when_the_time_is_over_what_was_not_tried_is_known():
    """No seconds at all: nothing is looked at and nothing is claimed."""
    over = Seconds(over=lambda: True)

    assert not any(g.looked for g in over_cuts(
        growing(SKIRT, "length"), [cut(1500, 1140)], Table(), over))


def test_the_more_of_the_one_the_less_of_the_other():
    """Flare against length on one cut: the curve never rises."""
    def at(flare_mm: float):
        return growing(SKIRT.with_options(flare=flare_mm), "length")

    points = curve(at, [60.0, 110.0, 160.0], cut(1500, 1140), Table(), tries())
    values = [p.reach.value if p.reach else 0.0 for p in points]

    assert values == sorted(values, reverse=True)


def test_what_cannot_grow_is_refused_with_what_can():
    """A misspelt option, and a choice of words."""
    for name in ("lenght", "waist"):
        with pytest.raises(InvalidInput) as refused:
            growing(SKIRT, name)
        assert "length" in refused.value.fact.values["known"]


def test_the_command_answers_for_one_cut_with_lay_and_proof(tmp_path):
    """``far a-line-skirt --grow length --cut CODE --json``, as another program asks."""
    def run(*words: str) -> str:
        result = CliRunner().invoke(main, ["--data", str(tmp_path), *words])
        assert result.exit_code == 0, result.output
        return result.output

    code = json.loads(run("cut", "add", "drill", "1.5m x 114cm", "--washed", "--json"))["code"]
    run("person", "add", "Odile", "--measure", "hip=104cm", "--measure", "waist=82cm")
    words = ("far", "a-line-skirt", "--for", "Odile", "--grow", "length", "--cut", code,
             "--seconds", "0.2")
    (answer,) = json.loads(run(*words, "--json"))["answers"]

    assert answer["cut"] == code
    assert answer["option"] == "length"
    assert 500 <= answer["value_mm"] < answer["proved_at_most_mm"]
    assert answer["lay"]["placements"]
    assert {p["name"] for p in answer["pieces"]} >= {"front", "back"}
    assert re.search("would not fit|can never fit", run(*words))
