"""What a shop is asked for: sold lengths, spools, decimetres, spares."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.match.gather import DraftedGarment
from stash.match.notions.choices import choices
from stash.match.notions.supplies import supplies
from stash.match.notions.wanted import Wanted, what_to_buy
from stash.model import Bin, Need, Notion, NotionKind, Outline, Part, Pattern, Piece, Role, Seam
from stash.notions import as_sold, thread_needs, with_spare, zip_need
from stash.notions.as_sold import thread_sold
from stash.notions.fastenings import TOP
from stash.notions.machines import Machine, finish_on


def sewing(metres: float) -> Need:
    """Sewing thread."""
    return Need(kind=NotionKind.THREAD, why="all seams", length_mm=metres * 1000, group="sewing",
                most_each_mm=metres * 1000)


@pytest.mark.parametrize(("metres", "count", "each_m"), [
    (90, 1, 100), (120, 1, 200), (190, 1, 200), (260, 2, 200), (700, 1, 1000), (1700, 2, 1000),
])
def test_sewing_thread_comes_on_spools_as_sold(metres, count, each_m):
    """100, 200, 500 and 1,000 m: common practice in Europe; 1,000 m also sourced (put_ups.csv)."""
    sold = as_sold(sewing(metres))

    assert (sold.count, sold.put_up_mm, sold.put_up) == (count, each_m * 1000, "spool")


def test_an_overlocker_wants_a_cone_for_each_thread():
    """Three at once, of the smallest cone sold, however little they give."""
    _, finish = thread_needs([Seam("a", 1000.0), Seam("a, raw edges", 8000.0, "504")])
    sold = thread_sold([finish])

    assert (sold.count, sold.put_up, sold.use) == (3, "cone", "overlock")
    assert sold.needed_mm == pytest.approx(finish.length_mm)


@given(st.floats(1, 20_000))
def test_what_is_bought_is_never_less_than_what_is_needed(metres):
    """And a spool fewer would not do."""
    sold = as_sold(sewing(metres))

    assert sold.count * sold.put_up_mm >= metres * 1000 - 1e-6
    assert (sold.count - 1) * sold.put_up_mm < metres * 1000


def test_a_fly_of_168_mm_is_a_zip_of_18_cm():
    """The shop has no 16.8 cm; the waistband takes what is too long."""
    assert as_sold(zip_need(168.0, "fly", trimmed=TOP)).size_mm == 180.0


@given(st.floats(50, 5000))
def test_elastic_and_interfacing_are_bought_by_the_decimetre(length_mm):
    """Rounded up by less than one."""
    sold = as_sold(Need(kind=NotionKind.ELASTIC, why="waist", length_mm=length_mm,
                        size_mm=(22, 25, 28)))

    assert 0 <= sold.length_mm - length_mm < 100
    assert sold.length_mm % 100 == 0


def test_buttons_to_buy_have_their_spares_in_the_line_and_in_the_count(sentence):
    """At least 3 % more than are sewn on (textilecalculations.com): 7 are bought as 8."""
    need = Need(kind=NotionKind.BUTTON, why="front", count=7, size_mm=(9, 11.43, 13))
    line = what_to_buy(Wanted(garment="shirt", need=need))

    assert as_sold(need).count == with_spare(7) == 8
    assert sentence(line).startswith("8 buttons, 11.4 mm (18L)")


def test_the_line_speaks_the_shops_language(sentence):
    """"2 spools of 200 m", "1 zip, 18 cm long"."""
    thread = what_to_buy(Wanted(garment="trousers", need=sewing(260)))
    fly = what_to_buy(Wanted(garment="trousers", need=zip_need(168.0, "fly", trimmed=TOP)))

    assert sentence(thread).startswith("2 spools of 200 m of sewing thread (260 m are needed)")
    assert sentence(fly).startswith("1 zip, 18 cm long")


def reel(code: str, metres: float) -> Bin:
    """A reel of thread."""
    return Bin(code=code, amount=metres * 1000,
               notion=Notion(kind=NotionKind.THREAD, name=f"reel {code}"))


def test_threads_that_run_at_once_come_from_a_reel_each():
    """Three reels, each with its share; a single full one is wound off instead."""
    _, finish = thread_needs([Seam("a", 1.0), Seam("b", 8000.0, "504")])
    want = Wanted(garment="trousers", need=finish)
    first = choices(want, [reel("A", 100), reel("B", 100), reel("C", 100)])[0]
    alone = choices(want, [reel("A", 1000)])[0]

    assert [code for code, _ in first.parts] == ["A", "B", "C"]
    assert sum(amount for _, amount in first.parts) == pytest.approx(finish.length_mm)
    assert alone.told[0].kind == "thread_wound_off"
    assert choices(want, [reel("A", 10), reel("B", 10)]) == ()


def test_a_waistbands_interfacing_takes_its_depth_not_its_length():
    """85 x 9 cm laid across a width of 90 cm: 9 cm of the bin."""
    band = Piece(name="band", part=Part.WAISTBAND, role=Role.INTERFACING,
                 outline_mm=Outline.rectangle(850.0, 90.0).ring_mm)
    need = Need(kind=NotionKind.INTERFACING, why="fused pieces", length_mm=90.0)
    garment = DraftedGarment(pattern=Pattern(garment="skirt", pieces=(band,), notions=(need,)))
    roll = Bin(code="R", amount=500.0,
               notion=Notion(kind=NotionKind.INTERFACING, name="nonwoven", size_mm=900.0))
    (line,) = supplies([garment], [roll], None)

    assert line.chosen.parts == (("R", pytest.approx(90.0, abs=1.0)),)


@pytest.mark.parametrize(("machines", "finish"), [
    ((Machine.LOCKSTITCH,), "turned"),
    ((Machine.LOCKSTITCH, Machine.ZIGZAG), "zigzag"),
    ((Machine.ZIGZAG, Machine.OVERLOCK_3), "overlock"),
    ((Machine.OVERLOCK_4,), "overlock"),
])
def test_raw_edges_are_finished_as_her_machines_sew(machines, finish):
    """Common practice, no source; the draft's own words."""
    assert finish_on(machines) == finish
