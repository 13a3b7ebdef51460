"""Which bins serve which needs: exact, near, fewer, mixed; and never twice."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.fact import Fact
from stash.match.notions.allocation import missing, promise, promised
from stash.match.notions.choices import choices
from stash.match.notions.wanted import How, Supply, Wanted, what_to_buy
from stash.model import Bin, Closure, Cloth, Lay, Need, Notion, NotionKind
from stash.model.need import SEWN_AT
from stash.model.wire import need_json
from stash.notions.buttons import SHIRT_BUTTON_MM, button_need
from stash.notions.rules import value
from stash.sentences import METRIC, Reader, say
from stash.units import System

FRONT = Closure(length_mm=700, bust_mm=251, overlap_mm=20, first_mm=12, last_mm=610)
SHIRTING = Cloth(name="Tide linen", mass_gsm=120, colours=("#4f7c93",))


def buttons(code: str, size_mm: float, count: int, colour: str | None = None) -> Bin:
    """A bin of buttons."""
    notion = Notion(kind=NotionKind.BUTTON, name="shell", size_mm=size_mm, colour=colour)
    return Bin(code=code, notion=notion, amount=count)


def says(told: Supply | tuple[Fact, ...]) -> str:
    """What is told, as a maker in centimetres reads it."""
    facts = told.told if isinstance(told, Supply) else told
    return " ".join(say(one, Reader(System.METRIC)) for one in facts)


def metres(kind: NotionKind, code: str, amount_mm: float, **more) -> Bin:
    """A bin of something by length."""
    return Bin(code=code, notion=Notion(kind=kind, name=code.lower(), **more), amount=amount_mm)


def front(count: int = 8) -> Wanted:
    """The buttons of a shirt front."""
    need = button_need(FRONT, best_mm=SHIRT_BUTTON_MM, count=count)
    return Wanted(garment="shirt", need=need, closure=FRONT, cloth=SHIRTING)


def test_a_bin_with_the_size_and_the_count_is_exact_and_comes_first():
    """Eight of 18 ligne asked, eight there."""
    found = choices(front(), [buttons("NEAR", 15, 9), buttons("EXACT", 11.5, 8)])

    assert [(c.how, c.parts) for c in found] == [
        (How.EXACT, (("EXACT", 8.0),)),
        (How.NEAR, (("NEAR", 8.0),)),
    ]


def test_a_button_on_a_shank_says_its_longer_hole_though_its_size_is_the_one_asked_for():
    """11.5 mm and twice its thickness of 4 mm (common practice, no source): 19.5 mm."""
    flat, domed = buttons("FLAT", 11.5, 8), buttons("DOMED", 11.5, 8)
    domed = replace(domed, notion=replace(domed.notion, thickness_mm=4.0, shank=True))

    [as_drawn], [longer] = choices(front(), [flat]), choices(front(), [domed])

    assert "buttonhole" not in says(as_drawn)
    assert longer.buttonhole_mm == 19.5
    assert "buttonholes are 20 mm" in says(longer) or "buttonholes are 19.5 mm" in says(longer)


def test_a_larger_button_names_the_buttonhole_that_goes_with_it():
    """15 mm button: 18 mm buttonhole (3 mm longer than the button; sewing handbook ch. 7)."""
    (found,) = choices(front(), [buttons("NEAR", 15, 9)])

    assert found.buttonhole_mm == 18
    assert "buttonholes of 18 mm" in says(found)


def test_too_few_are_respaced_with_one_at_the_bust_and_still_close_the_front():
    """Six where eight are drafted: no gap above the 12 cm a front bears."""
    (found,) = choices(front(), [buttons("SIX", 15, 6)])

    assert found.how is How.FEWER
    assert len(found.positions_mm) == 6
    assert min(abs(p - FRONT.bust_mm) for p in found.positions_mm) <= value("bust_tolerance")
    gaps = [b - a for a, b in zip(found.positions_mm, found.positions_mm[1:], strict=False)]
    assert max(gaps) <= 120
    assert "one at the bust" in says(found)


def test_three_buttons_do_not_close_the_front_and_the_reason_says_what_is_nearest():
    """Three leave more than 12 cm unheld."""
    (line,) = promise([front()], [buttons("THREE", 15, 3)])

    assert line.chosen is None
    assert says(line.nearest) == "Nearest: 3 of 15 mm (24L); wanted: 8."


def test_a_button_wider_than_the_overlap_bears_is_refused_with_both_widths():
    """30 mm needs 22.5 mm from centre line to edge (3/4 of the diameter, Singer 1288 p. 67)."""
    (line,) = promise([front()], [buttons("BIG", 30, 20)])

    assert line.chosen is None
    assert "need 22.5 mm from centre line to edge and the front has 20 mm" in says(line.nearest)


def test_two_bins_that_are_short_alone_make_a_mixed_set():
    """Five and four make nine; eight are asked."""
    found = choices(front(), [buttons("FIVE", 11.5, 5), buttons("FOUR", 12.5, 4)])

    mixed = [c for c in found if c.how is How.MIXED]
    assert [c.parts for c in mixed] == [(("FIVE", 5.0), ("FOUR", 3.0))]


def test_front_and_cuffs_are_never_promised_the_same_buttons():
    """Ten in one bin: eight for the front, so the cuffs' four must come from another."""
    cuffs = Wanted(
        garment="shirt",
        need=Need(kind=NotionKind.BUTTON, why="cuffs", count=4, size_mm=(9, 11.43, 14),
                  group="cuffs"),
    )

    lines = promise([front(), cuffs], [buttons("TEN", 11.5, 10), buttons("OTHER", 12.5, 4)])

    assert [line.chosen.parts for line in lines] == [(("TEN", 8.0),), (("OTHER", 4.0),)]


def test_a_long_coil_zip_is_shortened_and_a_metal_one_is_not():
    """Metal teeth cannot be pulled at the bottom."""
    want = Wanted(garment="skirt", need=Need(kind=NotionKind.ZIP, why="side", count=1,
                                             size_mm=(195, 200, 600)))

    def long_zip(code: str, *, shortenable: bool) -> Bin:
        return Bin(code=code, amount=1, notion=Notion(
            kind=NotionKind.ZIP, name=code, size_mm=300, shortenable=shortenable))

    assert "Shorten it by 10 cm" in says(choices(want, [long_zip("COIL", shortenable=True)])[0])
    assert choices(want, [long_zip("METAL", shortenable=False)]) == ()
    (line,) = promise([want], [long_zip("METAL", shortenable=False)])
    assert "cannot be shortened there" in says(line.nearest)


def test_elastic_serves_by_width_against_its_casing_and_by_length():
    """Casing for 22 to 32 mm: 25 mm serves; 10 mm rolls over; 0.5 m is too little."""
    want = Wanted(garment="trousers", need=Need(kind=NotionKind.ELASTIC, why="waist",
                                                length_mm=690, size_mm=(22, 25, 32)))
    bins = [
        metres(NotionKind.ELASTIC, "NARROW", 5000, size_mm=10),
        metres(NotionKind.ELASTIC, "SHORT", 500, size_mm=25),
        metres(NotionKind.ELASTIC, "RIGHT", 700, size_mm=25),
    ]

    assert [c.parts for c in choices(want, bins)] == [(("RIGHT", 690),)]


def test_wider_elastic_serves_when_the_casing_is_cut_deeper():
    """35 mm where 25 mm is drafted: 10 mm more at the top edge, casing 41 mm deep (+ 1/4 in)."""
    want = Wanted(garment="trousers", need=Need(kind=NotionKind.ELASTIC, why="waist",
                                                length_mm=690, size_mm=(18, 25, 28)))

    (found,) = choices(want, [metres(NotionKind.ELASTIC, "WIDE", 2000, size_mm=35)])

    assert found.how is How.NEAR
    assert "cut the casing edge 10 mm longer, so that the casing is 41 mm deep" in says(found)


def test_thread_of_another_colour_does_not_serve():
    """A blue shirt is not sewn with rust; two blues may share the work."""
    want = Wanted(garment="shirt", cloth=SHIRTING,
                  need=Need(kind=NotionKind.THREAD, why="all seams", length_mm=120_000,
                            match_colour=True))
    rust = metres(NotionKind.THREAD, "RUST", 900_000, colour="#8b3a2e")
    blue = metres(NotionKind.THREAD, "BLUE", 80_000, colour="#4f7c93")
    near_blue = metres(NotionKind.THREAD, "NEARBLUE", 60_000, colour="#557f96")

    assert choices(want, [rust, blue]) == ()
    (both,) = choices(want, [rust, blue, near_blue])
    assert (both.how, both.parts) == (How.MIXED, (("BLUE", 80_000), ("NEARBLUE", 40_000)))


def test_interfacing_heavier_than_the_cloth_is_refused():
    """250 g/m² behind 120 g/m² stands stiff (common practice, no source)."""
    want = Wanted(garment="shirt", cloth=SHIRTING,
                  need=Need(kind=NotionKind.INTERFACING, why="facings", length_mm=600,
                            fusible=True))
    stiff = metres(NotionKind.INTERFACING, "STIFF", 2000, mass_gsm=250, fusible=True)
    light = metres(NotionKind.INTERFACING, "LIGHT", 2000, mass_gsm=60, fusible=True)

    assert [c.parts[0][0] for c in choices(want, [stiff, light])] == ["LIGHT"]


def test_interfacing_takes_the_length_of_a_real_lay_on_its_own_width():
    """The lay says 410 mm on this bin, so the safe estimate of 600 mm is not used."""
    lay = Lay(placements=(), length_mm=410.0, width_mm=900.0, utilisation=0.8)
    want = Wanted(garment="shirt", lay_on=lambda _: lay,
                  need=Need(kind=NotionKind.INTERFACING, why="facings", length_mm=600))

    (found,) = choices(want, [metres(NotionKind.INTERFACING, "ROLL", 450, size_mm=900)])

    assert found.parts == (("ROLL", 410.0),)


def test_binding_that_is_not_there_is_cut_from_the_cloth():
    """A single binding showing 10 mm is cut 40 mm wide on the bias."""
    want = Wanted(garment="shirt", cloth_width_mm=1120,
                  need=Need(kind=NotionKind.BINDING, why="neck", length_mm=900,
                            size_mm=(7.5, 10, 15), match_colour=True))

    (found,) = choices(want, [])

    assert found.how is How.FROM_CLOTH
    assert "1 bias strip 40 mm wide" in says(found)


def test_what_to_buy_names_count_size_and_purpose():
    """A line one can read out in a shop: seven are sewn on, and a spare is bought."""
    assert says((what_to_buy(front(7)),)) == (
        "8 buttons, 11.4 mm (18L), to match Tide linen, for the front of the shirt"
    )


@given(
    st.lists(st.tuples(st.integers(1, 9), st.sampled_from([10.0, 11.5, 15.0])), max_size=4),
    st.lists(st.tuples(st.integers(0, 12), st.sampled_from([10.0, 11.5, 15.0])), max_size=4),
)
def test_no_bin_is_promised_more_than_it_holds_and_as_few_needs_as_can_be_go_missing(
    asked: list[tuple[int, float]], held: list[tuple[int, float]]
):
    """Against trying every assignment of one bin (or two) to each need."""
    wanted = [
        Wanted(garment="g", need=Need(kind=NotionKind.BUTTON, why=str(i), count=n,
                                      size_mm=(size - 2, size, size + 2)))
        for i, (n, size) in enumerate(asked)
    ]
    bins = [buttons(f"B{i}", size, n) for i, (n, size) in enumerate(held)]

    lines = promise(wanted, bins)

    taken = promised(lines)
    assert all(taken.get(b.code, 0) <= b.amount for b in bins)
    assert len(missing(lines)) == fewest_missing(wanted, bins)


def fewest_missing(wanted: list[Wanted], bins: list[Bin]) -> int:
    """By trying everything."""
    least = len(wanted)
    for pick in product(*[(None, *choices(w, bins)) for w in wanted]):
        taken = {b.code: 0.0 for b in bins}
        for choice in filter(None, pick):
            for code, amount in choice.parts:
                taken[code] += amount
        if all(taken[b.code] <= b.amount for b in bins):
            least = min(least, sum(c is None for c in pick))
    return least


@pytest.mark.parametrize("kind", list(NotionKind))
def test_every_kind_has_an_answer_when_there_are_no_bins(kind: NotionKind):
    """Nothing to take is an answer with a sentence, not an error."""
    need = Need(kind=kind, why="it", count=2, length_mm=500, size_mm=(9, 10, 11))

    (line,) = promise([Wanted(garment="shirt", need=need)], [])

    assert line.chosen is None
    assert says(line.nearest).startswith(("There is no", "There are no"))
    assert says((what_to_buy(line.wanted),))


def test_what_a_notion_is_for_is_a_fact_and_an_unknown_part_is_named():
    """Each part that drafts name has a wording; a part from elsewhere is said as it was written."""
    def need(why: str) -> Need:
        return Need(kind=NotionKind.ZIP, why=why, count=1)

    said = {word: say(need(word).reason, METRIC) for word in SEWN_AT}
    assert all(said.values())
    assert say(need("fused pieces").reason, METRIC) == "the fused pieces"
    assert say(need("gusset").reason, METRIC) == "the gusset"
    assert need_json(need("waist"))["why"] == "waist"
    assert need_json(need("waist"))["reason"] == {"kind": "sewn_at_waist"}
