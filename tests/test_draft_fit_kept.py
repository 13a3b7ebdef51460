"""Her fit is kept: what a toile showed is drawn again next time, and undone like anything else."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.draft import trousers
from stash.draft.body import complete
from stash.draft.catalogue import about, draft, garments
from stash.draft.garment import Measure
from stash.draft.geometry import length
from stash.draft.soundness import broken
from stash.errors import InvalidInput
from stash.model import MarkKind, Outline, Piece
from stash.sentences import METRIC, say
from stash.store import open_stash
from stash.workroom import people
from stash.workroom.drafts import drafted
from stash.workroom.sewing_words import sewing_words
from web.command import main

WOMAN = {"hip": 1000.0, "waist": 780.0, "bust": 940.0}


def drawn(**options):
    """Both legs before allowances."""
    names = (*trousers.GARMENT.measurements, *trousers.GARMENT.estimates)
    body = complete(WOMAN, names, "women")
    return trousers.draw(body, trousers.GARMENT.read_options({"waist": "fitted", **options}))


def piece(pattern, name: str) -> Piece:
    """One piece by its name."""
    return next(p for p in pattern.pieces if p.name == name)


def test_a_raised_centre_back_lengthens_the_crotch_seam_and_nothing_it_is_sewn_to():
    """Raised by 1.5 cm, the back's crotch seam is 1.5 cm longer; side and inside leg agree."""
    usual, raised = drawn(), drawn(centre_back="1.5 cm")

    assert length(raised.back.crotch) - length(usual.back.crotch) == pytest.approx(15, abs=0.5)
    assert raised.front == usual.front
    assert length(raised.back.side) == pytest.approx(length(raised.front.side), abs=0.5)


def test_a_sway_back_is_a_lowered_centre_back():
    """1 cm less behind."""
    usual, sway = drawn(), drawn(sway_back=10)

    assert length(usual.back.crotch) - length(sway.back.crotch) == pytest.approx(10, abs=0.5)


def test_a_centimetre_off_the_side_takes_four_off_the_hip():
    """Front and back, left and right: 4 cm round the hip, 4 cm round the waist."""
    usual, taken = drawn(), drawn(side="1cm")
    for panel in ("front", "back"):
        wide, narrow = (getattr(legs, panel).points["U"][1] for legs in (usual, taken))
        assert narrow - wide == pytest.approx(10)
    assert usual.waist_mm - taken.waist_mm == pytest.approx(40, abs=4)


def test_a_longer_rise_lowers_the_crotch():
    """By what was asked, in front and behind, and the legs stay as long from the waist."""
    usual, longer = drawn(), drawn(rise=20)

    assert longer.leg.rise - usual.leg.rise == pytest.approx(20)
    assert longer.leg.hem_down == usual.leg.hem_down


@pytest.mark.parametrize("garment", ["shirt", "tunic"])
def test_a_full_bust_widens_and_lengthens_the_front_alone(garment):
    """4 cm more: each half of the front 2 cm wider under the arm, its centre 2 cm longer; the
    back stays, the sides agree, and the cap of the sleeve fits the longer armhole.
    """
    usual, full = (draft(garment, WOMAN, {"full_bust": mm}) for mm in (0, 40))

    assert piece(full, "back") == piece(usual, "back")
    grown = Outline(piece(full, "front").stitch_mm), Outline(piece(usual, "front").stitch_mm)
    assert grown[0].length_mm - grown[1].length_mm == pytest.approx(20)
    halves = 1 if garment == "shirt" else 2
    assert grown[0].width_mm - grown[1].width_mm == pytest.approx(20 * halves, abs=0.1)
    for join in full.joins:
        assert abs(join.ease_mm) < (5.6 if join.a[0] == "sleeve" else 0.5), join


def edge(pattern, name: str, of: str) -> float:
    """The length of one edge of one piece, mm."""
    return length(next(e.path_mm for e in piece(pattern, name).edges if e.name == of))


@pytest.mark.parametrize("garment", ["shirt", "tunic"])
def test_a_sway_back_shortens_the_centre_back_alone(garment):
    """2 cm: the back's fold is 2 cm shorter, its side seam as long as the front's."""
    usual, sway = (draft(garment, WOMAN, {"sway_back": mm}) for mm in (0, 20))

    assert edge(usual, "back", "fold") - edge(sway, "back", "fold") == pytest.approx(20)
    assert edge(sway, "back", "side") == pytest.approx(edge(sway, "front", "side"))
    assert piece(sway, "front") == piece(usual, "front")


@pytest.mark.parametrize("garment", ["shirt", "tunic"])
def test_a_rounded_back_is_longer_from_the_nape(garment):
    """1 cm: the back's fold is 1 cm longer, and what is sewn to the neck follows it."""
    usual, rounded = (draft(garment, WOMAN, {"round_back": mm}) for mm in (0, 10))

    grown = edge(rounded, "back", "fold") - edge(usual, "back", "fold")
    assert grown == pytest.approx(10, abs=0.5 if garment == "shirt" else 3)
    assert all(abs(j.ease_mm) < 5.6 for j in rounded.joins)


@pytest.mark.parametrize("garment", ["shirt", "tunic", "robe", "nightshirt"])
def test_a_longer_arm_has_a_longer_sleeve(garment):
    """3 cm more on the paper, and the seams that meet still agree."""
    usual, longer = (draft(garment, WOMAN, {"longer_sleeve": mm}) for mm in (0, 30))

    sleeves = [Outline(piece(p, "sleeve").stitch_mm).length_mm for p in (usual, longer)]
    assert sleeves[1] - sleeves[0] == pytest.approx(30, abs=0.1)


@pytest.mark.parametrize("garment", ["shirt", "tunic"])
def test_a_fuller_arm_has_a_wider_sleeve_with_the_same_cap(garment):
    """4 cm wider at the underarm; the cap is as long as before, so it still fits the armhole."""
    usual, fuller = (draft(garment, WOMAN, {"fuller_arm": mm}) for mm in (0, 40))

    widths = [Outline(piece(p, "sleeve").stitch_mm).width_mm for p in (usual, fuller)]
    assert widths[1] - widths[0] == pytest.approx(40, abs=0.1)
    assert edge(fuller, "sleeve", "cap") == pytest.approx(edge(usual, "sleeve", "cap"), abs=0.5)


@pytest.mark.parametrize("garment", ["robe", "nightshirt"])
def test_a_straight_sleeve_and_its_armhole_widen_together(garment):
    """4 cm round the arm: 2 cm deeper in front and behind, sleeve and armhole alike."""
    usual, fuller = (draft(garment, WOMAN, {"fuller_arm": mm}) for mm in (0, 40))

    assert edge(fuller, "sleeve", "armhole") - edge(usual, "sleeve", "armhole") == pytest.approx(
        20, abs=0.5)
    assert all(abs(j.ease_mm) < 0.6 for j in fuller.joins)


SKIRTS = ["straight-skirt", "a-line-skirt"]


@pytest.mark.parametrize("garment", SKIRTS)
@pytest.mark.parametrize(("adjustment", "name", "by"), [
    ("centre_back", "back", 15), ("sway_back", "back", -15), ("full_front", "front", 15),
])
def test_a_skirt_is_raised_or_lowered_at_its_centre(garment, adjustment, name, by):
    """1.5 cm at the centre of one panel alone; its side seam still agrees with the other's."""
    usual, changed = (draft(garment, WOMAN, {adjustment: mm}) for mm in (0, abs(by)))
    centre = "fold" if name == "front" else "centre back"
    other = "back" if name == "front" else "front"
    grown = [
        max(x for x, _ in path) - min(x for x, _ in path)
        for p in (usual, changed)
        for path in (next(e.path_mm for e in piece(p, name).edges if e.name == centre),)
    ]

    assert grown[1] - grown[0] == pytest.approx(by, abs=0.1)
    assert piece(changed, other) == piece(usual, other)
    assert edge(changed, "front", "side") == pytest.approx(edge(changed, "back", "side"), abs=0.1)


@pytest.mark.parametrize("garment", SKIRTS)
def test_a_high_hip_lets_the_sides_out_above_the_hip_alone(garment):
    """1 cm half way from waist to hip on front and back alike; waist and hem stay as they were."""
    usual, high = (draft(garment, WOMAN, {"hip_curve": mm}) for mm in (0, 10))
    for name in ("front", "back"):
        wide = [max(y for x, y in next(e.path_mm for e in piece(p, name).edges if e.name == "side")
                    if x < 120) for p in (usual, high)]
        assert 3 < wide[1] - wide[0] < 11
        assert edge(usual, name, "hem") == pytest.approx(edge(high, name, "hem"))
    assert [j.ease_mm for j in high.joins] == pytest.approx(
        [j.ease_mm for j in usual.joins], abs=0.3)


@pytest.mark.parametrize("garment", ["fitted-bodice", "dress"])
@pytest.mark.parametrize(("adjustment", "mm"), [
    ("sway_back", 15), ("round_back", 10), ("bust_down", 20), ("dart_length", 10),
    ("longer_sleeve", 20), ("fuller_arm", 20),
])
def test_a_fitted_bodice_is_adjusted_where_it_says(garment, adjustment, mm):
    """Only the piece it is about changes in its measure, and every join keeps its ease."""
    usual, changed = (draft(garment, WOMAN, {adjustment: v}, "women") for v in (0, mm))
    measured = {
        "sway_back": lambda p: -edge(p, "back", "centre back"),
        "round_back": lambda p: edge(p, "back", "centre back"),
        "bust_down": lambda p: next(
            m.at_mm[0][0] for m in piece(p, "front").marks if m.kind is MarkKind.BUST),
        "dart_length": lambda p: -min(
            m.at_mm[1][0] for m in piece(p, "back").marks if m.kind is MarkKind.DART),
        "longer_sleeve": lambda p: Outline(piece(p, "sleeve").stitch_mm).length_mm,
        "fuller_arm": lambda p: Outline(piece(p, "sleeve").stitch_mm).width_mm,
    }[adjustment]

    assert measured(changed) - measured(usual) == pytest.approx(mm, abs=0.6)
    assert [j.ease_mm for j in changed.joins] == pytest.approx(
        [j.ease_mm for j in usual.joins], abs=0.6)


def test_every_garment_that_is_fitted_to_a_body_takes_adjustments():
    """What is only a length of cloth takes none: aprons, bags, cushions, curtains, pillowcases."""
    without = {g for g in garments() if about(g).measurements and not any(
        isinstance(o, Measure) and o.fit for o in about(g).options)}

    assert without <= {"apron", "wrap"}


def most_eased_mm(name: str, join) -> float:
    """How much longer one edge may be sewn to the other: common practice, no source.

    A cap round its armhole, 1 cm in all on a shirt and 2.5 cm on a set-in sleeve; the back's
    shoulder 5 mm on the front's where the block is fitted.
    """
    if join.a[0] == "sleeve":
        return 12.6 if name in {"fitted-bodice", "dress"} and join.a[1] == "cap" else 5.6
    if name in {"fitted-bodice", "dress"} and join.a == ("back", "shoulder"):
        return 5.1
    return 0.6


def drawn_up(name: str, join) -> bool:
    """Gathers and pleats drawn up to a band, and a knit stretched onto its band by a tenth."""
    return (name in {"gathered-skirt", "pleated-skirt"} and "waistband" in join.b) or (
        name == "knit-top" and "neckband" in join.b)


@pytest.mark.parametrize(
    "name", [g for g in garments() if any(isinstance(o, Measure) and o.fit
                                          for o in about(g).options)])
@settings(max_examples=15, deadline=None)
@given(st.data(), st.sampled_from([
    (WOMAN, "women"), ({"hip": 1180.0, "waist": 1040.0, "bust": 1140.0}, "women"),
    ({"hip": 980.0, "waist": 900.0, "bust": 1000.0}, "men"),
]))
def test_any_adjustment_leaves_seams_that_meet(name, data, body):
    """Adjusted any way within the ranges, the pieces are whole and their edges agree, or the
    draft says what cannot be.
    """
    girths, kind = body
    chosen = {
        o.name: data.draw(st.floats(o.least_mm, o.most_mm), label=o.name)
        for o in about(name).options if isinstance(o, Measure) and o.fit
    }
    try:
        pattern = draft(name, girths, chosen, kind)
    except InvalidInput:
        return
    assert broken(pattern) == []
    for join in pattern.joins:
        assert drawn_up(name, join) or abs(join.ease_mm) < most_eased_mm(name, join), join
    usual = draft(name, girths, {}, kind)
    for one, adjusted in zip(usual.joins, pattern.joins, strict=True):
        if one.a[0] != "sleeve" and not drawn_up(name, one):
            assert adjusted.ease_mm == pytest.approx(one.ease_mm, abs=0.6), adjusted


def test_an_adjustment_is_kept_drawn_again_and_undone(tmp_path, sentence):
    """One act, one event, one undo; other garments and people are not touched."""
    with open_stash(tmp_path) as stash:
        people.add(stash, "Odile Brandt", WOMAN, "women")
        before = drafted(stash.people.get("Odile Brandt"), "trousers", {})
        event, kept = people.adjust(stash, "odile brandt", "trousers", {"centre_back": "1.5cm"})

        after = drafted(stash.people.get("Odile Brandt"), "trousers", {})
        assert kept.adjustments_mm == {"trousers": {"centre_back": 15.0}}
        assert after.pieces != before.pieces
        assert after.pieces == draft("trousers", WOMAN, {"centre_back": 15}, "women").pieces
        assert any("raise the centre back, for a full seat (1.5 cm)" in sentence(f)
                   for f in after.facts)
        assert after.wearer == "Odile Brandt"

        stash.ledger.undo(event.id)
        assert stash.people.get("Odile Brandt").adjustments_mm == {}
        assert drafted(stash.people.get("Odile Brandt"), "trousers", {}).pieces == before.pieces


ADJUSTED = [g for g in garments()
            if any(isinstance(o, Measure) and o.fit for o in about(g).options)]


@pytest.mark.parametrize("garment", ADJUSTED)
def test_every_adjustment_is_kept_shown_and_undone(tmp_path, sentence, garment):
    """Each one a garment offers, by itself: kept for her and this garment alone, drawn again next
    time as if it were chosen, told with its size on the draft and on paper, and gone with an undo.
    """
    offered = [o for o in about(garment).options if isinstance(o, Measure) and o.fit]
    with open_stash(tmp_path) as stash:
        people.add(stash, "Odile", WOMAN, "women")
        plain = drafted(stash.people.get("Odile"), garment, {})
        for option in offered:
            mm = min(10.0, option.most_mm)
            event, _ = people.adjust(stash, "Odile", garment, {option.name: mm})
            her = stash.people.get("Odile")
            again = drafted(her, garment, {})

            assert her.adjustments_mm == {garment: {option.name: mm}}
            assert again.pieces == draft(garment, WOMAN, {option.name: mm}, "women").pieces
            assert again.pieces != plain.pieces, option.name
            told = [f for f in again.facts if f not in plain.facts]
            assert any("1 cm" in sentence(f) for f in told), option.name
            assert {say(f, METRIC) for f in told} <= set(sewing_words(again, METRIC).told)

            stash.ledger.undo(event.id)
            assert stash.people.get("Odile").adjustments_mm == {}
            assert drafted(stash.people.get("Odile"), garment, {}).pieces == plain.pieces


def test_nothing_takes_an_adjustment_back_and_new_measurements_keep_it(tmp_path):
    """0 forgets it; measuring her again does not."""
    with open_stash(tmp_path) as stash:
        people.add(stash, "Odile", WOMAN, "women")
        people.adjust(stash, "Odile", "trousers", {"side": 10, "rise": 5})
        people.add(stash, "Odile", {"hip": 1010.0})
        people.save(stash, "Odile", {**WOMAN, "hip": 1010.0}, "women")
        assert stash.people.get("Odile").adjustments_mm["trousers"] == {"side": 10, "rise": 5}

        people.adjust(stash, "Odile", "trousers", {"side": 0})
        assert stash.people.get("Odile").adjustments_mm == {"trousers": {"rise": 5}}


def test_what_is_no_adjustment_names_those_there_are(tmp_path, sentence):
    """Trousers have four."""
    with open_stash(tmp_path) as stash:
        people.add(stash, "Odile", WOMAN, "women")
        with pytest.raises(InvalidInput) as refused:
            people.adjust(stash, "Odile", "trousers", {"seam": 10})
    assert "centre_back, sway_back, side and rise" in sentence(refused.value)


def test_a_person_is_measured_more_than_once(tmp_path, sentence):
    """The draft says which set it used and what changed; an earlier one can be drawn again."""
    with open_stash(tmp_path) as stash:
        people.add(stash, "Odile", WOMAN, "women", measured_on="2025-03-01")
        people.add(stash, "Odile", {"hip": 1020.0}, measured_on="2026-11-30")
        person = stash.people.get("Odile")

    now, then = drafted(person, "trousers", {}), drafted(person, "trousers", {}, "2025-03-01")
    said = " ".join(map(sentence, now.facts))

    assert now.measurements_mm["hip"] == 1020 and then.measurements_mm["hip"] == 1000
    assert "measurements of 2026-11-30" in said
    assert "Since 2025-03-01: hip +2 cm." in said
    assert "2025-03-01" in " ".join(map(sentence, then.facts))
    with pytest.raises(InvalidInput) as refused:
        drafted(person, "trousers", {}, "2024-01-01")
    assert "2025-03-01 and 2026-11-30" in sentence(refused.value)


def test_the_commands_keep_and_show_a_fit(tmp_path):
    """``person adjust``, ``person show --json``, ``draft --for`` and ``undo``."""
    def run(*arguments):
        result = CliRunner().invoke(main, ["--data", str(tmp_path), *arguments])
        assert result.exit_code == 0, result.output
        return result.output

    run("person", "add", "Odile", "--measure", "hip=100", "--measure", "waist=78", "--body",
        "women")
    plain = json.loads(run("draft", "trousers", "--for", "Odile", "--json"))
    run("person", "adjust", "Odile", "trousers", "centre_back=1.5", "side=-5mm")
    shown = json.loads(run("person", "show", "Odile", "--json"))
    fitted = json.loads(run("draft", "trousers", "--for", "Odile", "--json"))

    assert shown["adjustments"] == {"trousers": {"centre_back": 15.0, "side": -5.0}}
    assert fitted["pieces"] != plain["pieces"]
    assert {f["kind"] for f in fitted["facts"]} >= {"fit_changed", "body_table_said"}
    run("undo")
    assert json.loads(run("person", "show", "Odile", "--json"))["adjustments"] == {}
