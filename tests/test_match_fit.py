"""Which cuts make these garments: every lay checked by separate code, every miss explained."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stash.fact import fact
from stash.lay import LayTask, check
from stash.match.fit.cut_verdicts import Fits, Impossible, NoneFound, NotTried
from stash.match.fit.fit_answer import Fit
from stash.match.fit.question import Effort, Question
from stash.match.fit.ranking import Weights
from stash.match.fit.which_cuts import fit
from stash.match.gather import gather, labels, of_role
from stash.match.order import Order
from stash.match.strip_lays import Table
from stash.model import Cloth, Construction, Cut, Outline, Piece, Role

CHILD = {"hip": 700.0, "waist": 600.0, "chest": 660.0, "height": 1310.0}
DRILL = Cloth(
    name="Drill", construction=Construction.WOVEN, mass_gsm=230, shrink_along_pct=4,
    shrink_across_pct=3,
)
QUICK = Effort(iterations=20, most=3)


def shorts(person: str = "Pip"):
    """A child's shorts."""
    return Order(garment="shorts", person=person, measurements_mm=CHILD, body="children").drafted()


def cut(code: str, length_mm: float, width_mm: float, cloth: Cloth = DRILL, **more) -> Cut:
    """A plain length, washed unless said otherwise."""
    more.setdefault("washed", True)
    return Cut(code=code, cloth=cloth, outline=Outline.rectangle(length_mm, width_mm), **more)


def ask(*cuts: Cut, garments=None, **more) -> Fit:
    """The quick answer for the shorts."""
    return fit(Question(garments=garments or (shorts(),), cuts=cuts, **more), QUICK)


def test_a_long_cut_fits_with_what_is_left_and_a_short_one_says_by_how_much_it_is_short():
    """Spare and short are lengths of the same lay."""
    answer = ask(cut("LONG", 2000, 1400), cut("SHORT", 300, 1400))

    long, short = answer.candidates
    assert (long.cut.code, long.fits, short.cut.code, short.fits) == ("LONG", True, "SHORT", False)
    assert long.laid.spare_mm == pytest.approx(2000 - long.laid.lay.length_mm)
    assert short.short_mm == pytest.approx(long.laid.lay.length_mm - 300, rel=0.1)
    assert short.verdict.told.kind


def test_three_different_answers_are_told_apart():
    """Fits, proved impossible, and no lay found."""
    answer = ask(cut("FITS", 2000, 1400), cut("TINY", 200, 300), cut("TIGHT", 1100, 500))

    verdicts = {c.cut.code: c.verdict for c in answer.candidates}
    assert isinstance(verdicts["FITS"], Fits)
    assert isinstance(verdicts["TINY"], Impossible)
    assert isinstance(verdicts["TIGHT"], Fits | NoneFound)


def test_a_cut_that_serves_only_with_a_tilt_is_found_when_the_maker_allows_one():
    """A band drawn 1 degree askew is 117 mm across, and 100 mm when it is laid straight."""
    c, s = cos(radians(1)), sin(radians(1))
    corners = ((0, 0), (1000, 0), (1000, 100), (0, 100))
    band = Piece(name="band", outline_mm=tuple((x * c - y * s, x * s + y * c) for x, y in corners))
    garment = replace(shorts(), pattern=replace(shorts().pattern, pieces=(band,)))
    torn = Outline(ring_mm=((0, 0), (1100, 0), (1050, 103), (0, 103)))
    narrow = replace(cut("NARROW", 1100, 103), outline=torn)

    (straight,) = ask(narrow, garments=(garment,)).candidates
    (tilted,) = ask(narrow, garments=(garment,), table=Table(off_grain_deg=1)).candidates

    assert isinstance(straight.verdict, Impossible)
    assert tilted.laid.lay.placements[0].turn_deg % 180 == pytest.approx(179)


def test_unsuitable_cloth_is_set_aside_with_its_reason_and_never_laid():
    """A jersey and a voile are no shorts."""
    jersey = Cloth(name="Jersey", construction=Construction.KNIT, mass_gsm=200)
    voile = Cloth(name="Voile", construction=Construction.WOVEN, mass_gsm=60)

    answer = ask(cut("KNIT", 2000, 1600, jersey), cut("THIN", 2000, 1400, voile))

    assert answer.candidates == ()
    assert {s.cut.code: s.suitability.hard[0].kind for s in answer.set_aside} == {
        "KNIT": "draft_not_for_knit", "THIN": "too_thin",
    }


def test_a_remnant_that_serves_comes_before_a_new_length():
    """Using up a remnant beats starting a whole cut."""
    remnant = Cut(
        code="REMNANT", cloth=DRILL, washed=True, came_from="LONG",
        outline=Outline(((0, 0), (1000, 0), (1000, 1100), (700, 1400), (0, 1400))),
    )

    answer = ask(cut("LONG", 4000, 1400), remnant)

    assert [c.cut.code for c in answer.fits] == ["REMNANT", "LONG"]


def test_cloth_kept_for_something_comes_last_unless_that_does_not_count():
    """The weight of "keep for" decides."""
    kept = cut("KEPT", 900, 1400, keep_for="a coat lining")

    cautious = ask(kept, cut("LONG", 3000, 1400))
    careless = ask(kept, cut("LONG", 3000, 1400), weights=Weights(keep_for=0.0))

    assert [c.cut.code for c in cautious.fits] == ["LONG", "KEPT"]
    assert fact("kept_for", what="a coat lining") in cautious.fits[-1].suitability.soft
    assert careless.fits[0].cut.code == "KEPT"


def test_an_unwashed_cut_is_laid_as_it_will_be_after_washing():
    """4 % along: a lay that just fits the washed length leaves the same cut unwashed too short."""
    need = ask(cut("ANY", 2000, 1400)).fits[0].laid.lay.length_mm
    just = need * 1.02

    washed = ask(cut("CUT", just, 1400))
    unwashed = ask(cut("CUT", just, 1400, washed=False))

    assert washed.fits
    assert all(c.verdict.unwashed for c in unwashed.fits)


def test_a_cut_whose_free_part_begins_further_in_gets_its_lay_there():
    """Part of the cut is held: no piece lies on the held stretch."""
    free = Cut(code="PART", cloth=DRILL, washed=True,
               outline=Outline(((800, 0), (2200, 0), (2200, 1400), (800, 1400))))

    (candidate,) = ask(free).fits

    assert candidate.laid.spare_mm == pytest.approx(2200 - candidate.laid.lay.length_mm)
    task = LayTask(pieces=of_role(gather([shorts()]), Role.MAIN), cloth=free.outline)
    assert check(task, candidate.laid.lay) == []


def test_a_set_names_its_pieces_by_garment_and_person():
    """Two shorts: no piece is mistaken for another."""
    pair = (shorts("Pip"), shorts("Bram"))

    pieces = gather(pair)

    assert labels(pair) == ("shorts for Pip", "shorts for Bram")
    assert len({p.name for p in pieces}) == len(pieces)
    assert all(p.name.startswith(("shorts for Pip ", "shorts for Bram ")) for p in pieces)


def test_a_single_garment_keeps_the_names_of_its_draft():
    """What ``draft`` prints is what ``fit`` lays."""
    assert [p.name for p in gather([shorts()])] == [p.name for p in shorts().pattern.pieces]


def test_an_empty_stash_is_an_answer():
    """Nothing to lay on, nothing wrong."""
    answer = ask()

    assert (answer.candidates, answer.set_aside, answer.untried) == ((), (), 0)


def test_progress_sees_the_answer_improve():
    """A first fit at once, then the first lays, then the whole answer."""
    seen: list[Fit] = []

    final = fit(Question(garments=(shorts(),), cuts=(cut("A", 2000, 1400),)), QUICK, seen.append)

    assert len(seen) == 3
    assert seen[-1] == final
    assert seen[0].fits[0].laid.lay.length_mm >= final.fits[0].laid.lay.length_mm


def test_a_large_stash_is_settled_by_a_few_widths_and_every_lay_is_sound():
    """200 cuts of ten widths: all that are long enough fit, whatever their width."""
    cuts = [cut(f"C{i:03d}", 2500 - 5 * i, 900 + 60 * (i % 10)) for i in range(200)]

    answer = ask(*cuts)

    task = LayTask(pieces=of_role(gather([shorts()]), Role.MAIN), width_mm=900)
    assert len(answer.fits) > 150
    for candidate in answer.fits[::10]:
        on_cut = replace(task, width_mm=None, cloth=candidate.cut.outline)
        assert check(on_cut, candidate.laid.lay) == []


def test_a_stopped_question_says_what_was_not_tried():
    """Halted at once: suitable cuts remain, not tried, and nothing is claimed of them."""
    answer = fit(
        Question(garments=(shorts(),), cuts=(cut("A", 2000, 1400),)), Effort(halt=lambda: True)
    )

    assert answer.untried == 1
    assert isinstance(answer.candidates[0].verdict, NotTried)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    length=st.floats(250, 2500), width=st.floats(350, 1600), one_way=st.booleans(),
    bite=st.none() | st.tuples(st.floats(0.1, 0.5), st.floats(0.1, 0.5)),
)
def test_no_lay_ever_leaves_its_cut_or_overlaps(
    length: float, width: float, one_way: bool, bite: tuple[float, float] | None
):
    """Random cuts, some with a corner gone, each lay checked by the lay room's separate code."""
    ring = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    if bite:
        x, y = length * (1 - bite[0]), width * (1 - bite[1])
        ring = ((0.0, 0.0), (length, 0.0), (length, y), (x, y), (x, width), (0.0, width))
    cloth = Cloth(name="c", mass_gsm=230, one_way=one_way)
    one = Cut(code="CUT", cloth=cloth, outline=Outline(ring), washed=True)

    (candidate,) = ask(one).candidates

    pieces = of_role(gather([shorts()]), Role.MAIN)
    if candidate.fits:
        task = LayTask(pieces=pieces, cloth=one.outline, one_way=one_way)
        assert check(task, candidate.laid.lay) == []
        assert candidate.laid.spare_mm >= 0
    else:
        assert candidate.verdict.told.kind
