"""Sharing and shopping draw a knit for each cut by what was measured of it, as a single question
does; where nobody measured, and for what is yet to be bought, by what is presumed, and say so.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stash.model import Cloth, Construction, Cut, Outline, Person
from stash.sentences import METRIC, say
from stash.store import Stash, open_stash
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


def jersey(stash: Stash, name: str, pct: float, long_mm: float = 1400.0) -> str:
    """A washed length of jersey, 1.60 m wide; its code."""
    cloth = Cloth(name=name, construction=Construction.KNIT, mass_gsm=200,
                  stretch_across_pct=pct, stretch_along_pct=pct)
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
