"""The independent check finds each fault that is planted in a sound lay."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stash.fact import fact
from stash.lay import Budget, LayTask, check, shortest
from stash.lay.cloth.repeat import off_lattice_mm
from stash.model import Lay, Outline, Piece, Placement, Repeat, Spread

BAND = Piece(name="band", outline_mm=((0, -50), (300, -50), (300, 50), (0, 50)), on_fold=True)
LEG = Piece(
    name="leg", outline_mm=((0, 0), (400, 30), (400, 210), (0, 160)), quantity=2,
    mirrored_pair=True, match_points_mm=((0.0, 0.0),),
)


def row(*placements: Placement, length: float = 800.0, **given) -> Lay:
    """A lay of these placements."""
    return Lay(
        placements=placements, length_mm=length, width_mm=500.0, utilisation=0.5, **given
    )


@pytest.fixture
def task() -> LayTask:
    """A pair of legs on a cut with a flaw near its far end."""
    flaw = ((700, 400), (740, 400), (740, 440), (700, 440))
    return LayTask(pieces=(LEG,), cloth=Outline(
        ((0, 0), (800, 0), (800, 500), (0, 500)), (flaw,)
    ))


SOUND = (Placement("leg#1", 0, 0), Placement("leg#2", 0, 490, 0.0, True))


def test_a_sound_lay_has_no_fault(task):
    """Two legs apart on the cloth pass."""
    assert check(task, row(*SOUND)) == []


@pytest.mark.parametrize(("second", "fault"), [
    (Placement("leg#2", 0, 369, 0.0, True), fact("overlapping", piece="leg#1", other="leg#2")),
    (Placement("leg#2", 0, 501, 0.0, True), fact("leaves_the_cloth", piece="leg#2")),
    (Placement("leg#2", 350, 490, 0.0, True), fact("leaves_the_cloth", piece="leg#2")),
    (Placement("leg#2", 0, 490, 3.0, True), fact("wrongly_turned", piece="leg#2", turn_deg=3.0)),
])
def test_a_planted_fault_is_found(task, second, fault):
    """1 mm of overlap, 1 mm over the edge, over the flaw, a wrong turn."""
    assert fault in check(task, row(SOUND[0], second))


def test_pieces_may_touch(task):
    """A shared edge is no overlap."""
    touching = Placement("leg#2", 0, 420.0, 0.0, True)
    square = ((0, 0), (400, 0), (400, 210), (0, 210))
    lone = replace(task, pieces=(replace(LEG, outline_mm=square),))
    assert check(lone, row(SOUND[0], touching)) == []


def test_a_missing_copy_and_a_wrong_side_are_found(task):
    """Every copy is laid once, half of a pair face down."""
    assert check(task, row(SOUND[0])) == [fact("not_laid", piece="leg#2")]
    both_plain = row(SOUND[0], Placement("leg#2", 0, 250))
    fault = fact("wrong_number_mirrored", piece="leg", mirrored=0, wanted=1)
    assert fault in check(task, both_plain)


def test_half_a_turn_is_wrong_on_one_way_cloth(task):
    """Two-way cloth allows it, nap or print does not."""
    turned = row(SOUND[0], Placement("leg#2", 400, 280, 180.0, True))
    assert check(task, turned) == []
    fault = fact("wrongly_turned", piece="leg#2", turn_deg=180.0)
    assert fault in check(replace(task, one_way=True), turned)


def test_off_the_print_is_found(task):
    """1 mm beside the repeat is named."""
    printed = replace(task, repeat=Repeat(lengthwise_mm=60, crosswise_mm=70))
    on = row(SOUND[0], Placement("leg#2", 60, 490, 0.0, True))
    assert check(printed, on) == []
    off = row(SOUND[0], Placement("leg#2", 61, 490, 0.0, True))
    assert check(printed, off) == [fact("off_the_repeat", piece="leg#2", off_mm=1.0)]


def test_a_half_drop_moves_every_second_column(task):
    """The seventh column begins half a repeat later."""
    printed = replace(task, repeat=Repeat(lengthwise_mm=60, crosswise_mm=70, half_drop=True))
    assert check(printed, row(SOUND[0], Placement("leg#2", 30, 490, 0.0, True))) == []
    straight = check(printed, row(SOUND[0], Placement("leg#2", 60, 490, 0.0, True)))
    assert straight == [fact("off_the_repeat", piece="leg#2", off_mm=30.0)]


def test_off_the_fold_is_found():
    """A piece cut on the fold lies on it exactly."""
    task = LayTask(pieces=(BAND,), width_mm=500.0, spread=Spread.LENGTHWISE)
    on = row(Placement("band#1", 0, 250), length=300, spread=Spread.LENGTHWISE, fold_mm=250.0)
    assert check(task, on) == []
    off = row(Placement("band#1", 0, 251), length=300, spread=Spread.LENGTHWISE, fold_mm=250.0)
    assert check(task, off) == [fact("off_the_fold", piece="band#1")]


def test_too_little_room_between_pieces_is_found(task):
    """The clearance asked for is held."""
    lay = row(SOUND[0], Placement("leg#2", 0, 440, 0.0, True))
    assert check(task, lay) == []
    apart = check(replace(task, clearance_mm=40.0), lay)
    assert apart == [fact("too_near", piece="leg#1", other="leg#2", apart_mm=40.0)]


def test_the_search_passes_its_own_examiner(task):
    """What the search finds is sound by the separate code."""
    lay = shortest(task, Budget(iterations=30)).lay
    assert check(task, lay) == []


@pytest.mark.parametrize(("along", "across", "off"), [
    (128, 64, 0.0), (130, 64, 2.0), (63.5, 0, 0.5), (32, 32, 0.0), (0, 32, 32.0), (0, 40, 32.0),
])
def test_whole_repeats_are_counted_with_their_half_drop(along, across, off):
    """On a 64 x 32 half-drop print the next column across begins 32 mm later."""
    repeat = Repeat(lengthwise_mm=64, crosswise_mm=32, half_drop=True)
    assert off_lattice_mm(along, across, repeat) == pytest.approx(off)
