"""The nightshirt: its slit, its buttons, its cautions."""

from __future__ import annotations

import pytest

from stash.draft.catalogue import draft
from stash.model import NotionKind
from stash.notions import respace, widest_button_mm

WOMAN = {"bust": 920.0, "hip": 1000.0, "height": 1650.0}
CHILD = {"chest": 600.0, "height": 1160.0}


def pieces(pattern) -> set[str]:
    """The pieces' names."""
    return {p.name for p in pattern.pieces}


def need(pattern, kind: NotionKind):
    """The one need of a kind, or None."""
    return next((n for n in pattern.notions if n.kind is kind), None)


def test_three_buttons_close_the_slit_inside_their_placket():
    """A slit of 18 cm: 6 cm apart, and none wider than half the placket covers."""
    sewn = draft("nightshirt", WOMAN)
    buttons = need(sewn, NotionKind.BUTTON)

    assert buttons.count == 3
    assert sewn.closure.length_mm == 180
    assert buttons.size_mm[2] == pytest.approx(widest_button_mm(12.5))
    assert respace(sewn.closure, 3)[-1] < sewn.closure.length_mm


def test_a_plain_slit_has_no_buttons_and_a_longer_facing():
    """The facing runs down the slit instead of a placket."""
    plain = draft("nightshirt", WOMAN, {"opening": "slit"})

    assert need(plain, NotionKind.BUTTON) is None
    assert plain.closure is None
    assert "placket" not in pieces(plain)


def test_binding_does_without_facings_and_their_interfacing():
    """The rescue when cloth is short."""
    bound = draft("nightshirt", WOMAN, {"facing": "binding", "opening": "slit"})

    assert pieces(bound) == {"back", "front", "sleeve"}
    assert need(bound, NotionKind.BINDING) is not None
    assert need(bound, NotionKind.INTERFACING) is None


def test_a_short_sleeve_takes_less_cloth_and_less_thread():
    """Everything else stays."""
    long, short = (draft("nightshirt", WOMAN, {"sleeve": s}) for s in ("long", "short"))

    assert need(short, NotionKind.THREAD).length_mm < need(long, NotionKind.THREAD).length_mm
    assert pieces(short) == pieces(long)


def test_a_childs_nightshirt_warns_of_fire_and_of_small_buttons():
    """16 CFR 1615 and 1616, SI 1985/2043, EN 14878; small parts: 16 CFR 1501."""
    cautions = " ".join(draft("nightshirt", CHILD).cautions)

    assert "keep away from fire" in cautions
    assert "SI 1985/2043" in cautions
    assert "under 3" in cautions


def test_an_adults_nightshirt_carries_no_caution():
    """The rules are for children's clothes."""
    assert draft("nightshirt", WOMAN).cautions == ()


def test_elastic_cuffs_are_a_need_for_both_wrists():
    """In the hem of the sleeve: 14 mm of casing take 8 mm at best, 11 at most."""
    elastic = need(draft("nightshirt", {**WOMAN, "wrist": 160.0}, {"cuff": "elastic"}),
                   NotionKind.ELASTIC)

    assert elastic.length_mm == 2 * 175 + 13
    assert elastic.size_mm[1:] == (8.0, 11.0)
