"""The robe: band, belt, binding, and what a child's robe warns of."""

from __future__ import annotations

import pytest
from shapely import Polygon

from stash.draft.catalogue import draft
from stash.errors import InvalidInput
from stash.model import NotionKind

WOMAN = {"bust": 920.0, "waist": 780.0, "hip": 1000.0, "height": 1650.0}


def names(pattern) -> set[str]:
    """The pieces' names."""
    return {p.name for p in pattern.pieces}


def size(pattern, name: str) -> tuple[float, float]:
    """Cut length along the grain and width across it."""
    x0, y0, x1, y1 = Polygon(
        next(p for p in pattern.pieces if p.name == name).outline_mm
    ).bounds
    return x1 - x0, y1 - y0


def test_the_belt_goes_round_and_ties():
    """Two halves: waist 78 cm, and two ends of 49.5 cm (0.3 of the height) to tie."""
    belt_length, belt_width = size(draft("robe", WOMAN), "belt")

    assert 2 * belt_length == pytest.approx(780 + 2 * 495 + 4 * 15)
    assert belt_width == 2 * 40 + 2 * 15


def test_no_belt_means_no_belt_pieces():
    """Nor loops."""
    assert names(draft("robe", WOMAN, {"belt": "none"})) == {
        "back", "front", "sleeve", "band", "pocket",
    }


def test_binding_takes_the_place_of_the_band():
    """The rescue when cloth is short: a strip instead of two long pieces."""
    bound = draft("robe", WOMAN, {"facing": "binding"})

    assert "band" not in names(bound)
    assert [n.kind for n in bound.notions].count(NotionKind.BINDING) == 1


def test_the_band_is_as_long_as_the_edges_it_finishes():
    """Both front edges and the back neck, one seam at the centre back."""
    banded, bound = (draft("robe", WOMAN, {"facing": f}) for f in ("band", "binding"))
    edge = next(n.length_mm for n in bound.notions if n.kind is NotionKind.BINDING) - 50

    assert 2 * (size(banded, "band")[0] - 2 * 15) == pytest.approx(edge)


def test_a_longer_robe_is_longer_by_as_much():
    """Body pieces only."""
    short, long = (draft("robe", WOMAN, {"length": mm}) for mm in (1000, 1100))

    assert size(long, "back")[0] - size(short, "back")[0] == pytest.approx(100)
    assert size(long, "sleeve") == size(short, "sleeve")


def test_a_childs_robe_warns_of_fire_and_of_its_belt():
    """Robes count as sleepwear: 16 CFR 1615 and 1616; ties: 16 CFR 1120.3, ASTM F1816."""
    cautions = draft("robe", {"chest": 600.0, "height": 1160.0}).cautions

    assert any("keep away from fire" in c and "16 CFR 1615" in c for c in cautions)
    assert any("strangle" in c and "16 CFR 1120.3" in c for c in cautions)


def test_a_childs_robe_without_a_belt_warns_of_fire_alone():
    """Nothing is said that does not apply."""
    cautions = draft("robe", {"chest": 600.0, "height": 1160.0}, {"belt": "none"}).cautions

    assert len(cautions) == 1


def test_an_adults_robe_carries_no_caution():
    """The rules are for children's clothes."""
    assert draft("robe", WOMAN).cautions == ()


def test_without_bust_or_chest_it_asks_for_them(sentence):
    """And names them."""
    with pytest.raises(InvalidInput) as refused:
        draft("robe", {"waist": 780.0})

    assert "bust or chest" in sentence(refused.value)
