"""Sharing and shopping draw a knit for each cut by what was measured of it, as a single question
does; where nobody measured, and for what is yet to be bought, by what is presumed, and say so.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stash.model import Cloth, Construction, Cut, Outline, Person
from stash.sentences import METRIC, say
from stash.store import Stash, open_stash
from stash.workroom.kept_lines import lines_of
from stash.workroom.questions.answer_json import making_json
from stash.workroom.questions.assignment import ask_making
from stash.workroom.questions.fitting import Asking, ask_fit
from stash.workroom.questions.orders import orders_for
from stash.workroom.questions.shopping import Shop, ask_shop

QUICK = Asking(seconds=0.6)


@pytest.fixture
def stash(tmp_path: Path):
    """A woman and two jerseys, one that stretches 60 % across and one nobody measured."""
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(name="Odile", body="women", measurements_mm={
            "hip": 1000.0, "waist": 740.0, "bust": 940.0}))
        yield opened


def jersey(
    stash: Stash, name: str, pct: float, long_mm: float = 1400.0, along_pct: float | None = None,
) -> str:
    """A washed length of jersey, 1.60 m wide, that stretches alike both ways; its code."""
    cloth = Cloth(name=name, construction=Construction.KNIT, mass_gsm=200, stretch_across_pct=pct,
                  stretch_along_pct=pct if along_pct is None else along_pct)
    return stash.cuts.receive(Cut(
        code="", cloth=cloth, washed=True, outline=Outline.rectangle(long_mm, 1600.0))).code


def test_a_shared_knit_is_drawn_by_the_stretch_of_its_cut(stash: Stash):
    """The lay holds the same pieces as the answer for that cut alone, narrower than presumed."""
    code = jersey(stash, "springy jersey", 60.0)
    orders = orders_for(stash, ("knit-top",), ["Odile"])
    alone = next(iter(ask_fit(stash, orders, QUICK).fit.fits))
    (made,) = ask_making(stash, orders, QUICK).made

    assert made.cut.code == code
    assert {p.outline_mm for p in made.laid.pieces} == {p.outline_mm for p in alone.laid.pieces}
    presumed = {p.name: p for p in orders[0].drafted().pattern.pieces}
    for piece in made.laid.pieces:
        if piece.name in ("front", "back"):
            assert width(piece.outline_mm) < width(presumed[piece.name].outline_mm) - 5


def test_a_knit_nobody_measured_is_drawn_by_what_is_presumed(stash: Stash):
    """20 % across, which is common practice; and two tops come of two such different cloths."""
    jersey(stash, "springy jersey", 60.0)
    plain = jersey(stash, "plain jersey", 0.0)
    orders = orders_for(stash, ("knit-top", "knit-top"), ["Odile"])
    made = {m.cut.code: m for m in ask_making(stash, orders, QUICK).made}
    presumed = {p.outline_mm for p in orders[0].drafted().pattern.pieces}

    if plain in made:
        assert {p.outline_mm for p in made[plain].laid.pieces} <= presumed
    assert sum(len(m.labels) for m in made.values()) == 2


def test_a_shared_cut_that_was_measured_says_so(stash: Stash):
    """By its own figures, as a fact and as a sentence."""
    jersey(stash, "springy jersey", 60.0)
    orders = orders_for(stash, ("knit-top",), ["Odile"])
    (told,) = [m["stretch"] for m in making_json(
        ask_making(stash, orders, QUICK), METRIC)["made"]]

    assert told["status"] == "measured" and told["stretch_across_pct"] == 60.0
    assert [r["says"] for r in told["reasons"]] == [
        "Drawn for this cloth as it was measured: it stretches 60 % across and 60 % along."]


def test_a_shared_cut_that_nobody_measured_says_what_is_presumed(stash: Stash):
    """The figure, and how it is measured."""
    jersey(stash, "plain jersey", 0.0)
    orders = orders_for(stash, ("knit-top",), ["Odile"])
    (told,) = [m["stretch"] for m in making_json(
        ask_making(stash, orders, QUICK), METRIC)["made"]]
    (reason,) = told["reasons"]

    assert told["status"] == "presumed" and told["stretch_across_pct"] is None
    assert reason["kind"] == "drawn_for_presumed_stretch" and reason["wanted_across_pct"] == 20.0
    assert "which nobody measured on this cut" in reason["says"]


def test_a_woven_says_nothing_of_stretch(stash: Stash):
    """A bag relies on none."""
    stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="drill", construction=Construction.WOVEN, mass_gsm=280),
        washed=True, outline=Outline.rectangle(1500.0, 1500.0)))
    answer = ask_making(stash, orders_for(stash, ("tote-bag",), []), QUICK)

    assert [m["stretch"] for m in making_json(answer, METRIC)["made"]] == [None]


def test_what_was_presumed_lengthwise_is_told_apart(stash: Stash):
    """Leggings rely on stretch both ways; a jersey measured across only says so of the other."""
    code = jersey(stash, "firm jersey", 40.0, 2200.0, along_pct=0.0)
    (made,) = ask_making(stash, orders_for(stash, ("leggings",), ["Odile"]), QUICK).made

    assert made.cut.code == code and made.stretch and made.stretch.measured
    assert [one.kind for one in made.stretch.told] == [
        "drawn_for_its_stretch_across", "drawn_for_presumed_stretch_along"]


def test_a_kept_answer_still_says_it(stash: Stash):
    """What was asked lately is read again as it was told."""
    jersey(stash, "plain jersey", 0.0)
    answer = ask_making(stash, orders_for(stash, ("knit-top",), ["Odile"]), QUICK)

    assert [[t.kind for t in line.told] for line in lines_of(answer)] == [
        ["drawn_for_presumed_stretch"]]


def test_too_little_stretch_for_what_is_presumed_is_drawn_larger(stash: Stash):
    """A jersey that stretches 30 % makes leggings that are presumed for 40 %, if they are cut for
    it; nothing is then bought.
    """
    jersey(stash, "firm jersey", 30.0, 2200.0)
    orders = orders_for(stash, ("leggings",), ["Odile"])

    assert ask_fit(stash, orders, QUICK).fit.fits
    assert ask_making(stash, orders, QUICK).made
    assert not ask_shop(stash, orders, Shop(), QUICK).card.cloths


def test_the_card_says_how_far_a_knit_must_stretch(stash: Stash):
    """What is bought is bought for the stretch the draft presumes: 40 % across for leggings."""
    orders = orders_for(stash, ("leggings",), ["Odile"])
    (cloth,) = ask_shop(stash, orders, Shop(widths_mm=(1500.0,)), QUICK).card.cloths

    assert "Drawn for cloth that stretches 40 % across, or further." in [
        say(note, METRIC) for note in cloth.notes]


def width(outline) -> float:
    """Across the grain."""
    return max(y for _, y in outline) - min(y for _, y in outline)
