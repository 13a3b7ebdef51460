"""Whether a cloth will do, and why: hard limits and preferences apart."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.fact import Fact, fact
from stash.match.cloth.goes_with import goes_with, interfacing_suits
from stash.match.cloth.suitability import suit, suit_all
from stash.model import (
    Cloth,
    ClothWants,
    Construction,
    Cut,
    FibreShare,
    Notion,
    NotionKind,
    Outline,
    Repeat,
    Role,
)
from stash.sentences import Reader, say
from stash.units import System

TROUSERS = ClothWants(mass_gsm=(150, 400), mass_best_gsm=(200, 340))
SHIRT = ClothWants(mass_gsm=(70, 240), mass_best_gsm=(90, 170))


def cut(washed: bool = True, keep_for: str | None = None, **cloth) -> Cut:
    """Two metres of a cloth, 140 cm wide."""
    cloth.setdefault("name", "Cloth")
    cloth.setdefault("mass_gsm", 250.0)
    cloth.setdefault("construction", Construction.WOVEN)
    return Cut(code="CUT", cloth=Cloth(**cloth), washed=washed, keep_for=keep_for,
               outline=Outline.rectangle(2000, 1400))


def says(reasons: Iterable[Fact]) -> list[str]:
    """The reasons as a maker in centimetres reads them."""
    return [say(reason, Reader(System.METRIC)) for reason in reasons]


def test_a_cloth_inside_every_range_suits_without_a_word():
    """Drill of 250 g/m² for trousers."""
    answer = suit(cut(), TROUSERS, garments=["trousers"])

    assert answer.suits
    assert (answer.hard, answer.soft) == ((), ())


@pytest.mark.parametrize(
    ("cloth", "reason"),
    [
        ({"mass_gsm": 480.0}, "Too heavy at 480 g/m²: at most 400 g/m² for trousers."),
        ({"mass_gsm": 62.0}, "Too thin at 62 g/m²: at least 150 g/m² for trousers."),
        ({"construction": Construction.KNIT}, "This is a knit and the draft is for woven cloth"),
        ({"construction": Construction.NONWOVEN}, "This is a nonwoven"),
    ],
)
def test_what_cannot_serve_is_ruled_out_with_its_reason(cloth: dict, reason: str):
    """Hard limits."""
    answer = suit(cut(**cloth), TROUSERS, garments=["trousers"])

    assert not answer.suits
    assert any(line.startswith(reason) for line in says(answer.hard))


def test_a_knit_draft_rules_out_cloth_that_gives_too_little():
    """A draft that relies on 30 % is not put on over the head in 10 %."""
    wants = ClothWants(constructions=(Construction.KNIT,), stretch_across_pct=30)

    answer = suit(cut(construction=Construction.KNIT, stretch_across_pct=10.0), wants)

    assert says(answer.hard) == [
        "It gives 10 % across and the draft relies on 30 %: it could not be put on.",
    ]


@pytest.mark.parametrize(
    ("cloth", "word"),
    [
        ({"mass_gsm": 180.0}, "On the light side"),
        ({"mass_gsm": 390.0}, "On the heavy side"),
        ({"mass_gsm": None}, "weight is not recorded"),
        ({"opaque": False}, "seen through"),
        ({"stretch_across_pct": 18.0}, "come out roomy"),
    ],
)
def test_what_serves_less_well_stays_in_with_its_reason(cloth: dict, word: str):
    """Preferences never rule a cloth out."""
    answer = suit(cut(**cloth), TROUSERS, garments=["trousers"])

    assert answer.suits
    (line,) = says(answer.soft)
    assert word in line


def test_cloth_kept_for_something_else_says_so_but_not_for_its_own_garment():
    """Kept for winter trousers: no remark when it is trousers."""
    kept = cut(keep_for="Bram's winter trousers")

    assert suit(kept, TROUSERS, garments=["trousers"]).soft == ()
    assert suit(kept, SHIRT, garments=["shirt"]).soft[-1] == fact(
        "kept_for", what="Bram's winter trousers"
    )


def test_unwashed_one_way_and_large_prints_are_noted_and_cost_nothing():
    """What to know before cutting."""
    answer = suit(
        cut(washed=False, shrink_along_pct=4.0, shrink_across_pct=2.5, one_way=True,
            repeat=Repeat(lengthwise_mm=240, crosswise_mm=160)),
        TROUSERS,
    )

    assert answer.soft == ()
    assert [note.split(":")[0] for note in says(answer.notes)] == [
        "Not washed yet", "One-way", "Large repeat (24 cm)"
    ]


def test_cloth_whose_shrinkage_nobody_knows_says_that_it_is_laid_as_it_lies():
    """Nothing is guessed here: what is presumed comes from who asks."""
    answer = suit(cut(washed=False, fibres=(FibreShare("cotton", 100),)), TROUSERS)

    assert [note.kind for note in answer.notes] == ["shrinkage_unknown"]


weights = st.tuples(st.floats(50, 300), st.floats(50, 300)).map(lambda w: tuple(sorted(w)))
wants = st.builds(ClothWants, mass_gsm=weights, mass_best_gsm=weights)


@given(st.lists(wants, min_size=1, max_size=4), st.floats(40, 320))
def test_one_cloth_for_all_is_ruled_out_exactly_when_some_garment_rules_it_out(
    several: list[ClothWants], mass: float
):
    """A set is no more forgiving than the garments in it, and no stricter."""
    one, named = cut(mass_gsm=mass), {f"garment {i}": w for i, w in enumerate(several)}

    assert suit_all(one, named).suits == all(suit(one, w).suits for w in several)


def test_a_set_names_the_garment_that_rules_the_cloth_out():
    """Drill of 260 g/m² makes trousers but not the shirt."""
    answer = suit_all(cut(mass_gsm=260.0), {"trousers": TROUSERS, "shirt": SHIRT})

    assert says(answer.hard) == ["Too heavy at 260 g/m²: at most 240 g/m² for shirt."]


def test_interfacing_is_never_heavier_than_its_cloth():
    """Common practice, no source: the same weight or lighter, best well below it."""
    def verdict(gsm: float):
        notion = Notion(kind=NotionKind.INTERFACING, name="i", mass_gsm=gsm, fusible=True)
        return interfacing_suits(notion, cut(mass_gsm=100.0).cloth)

    assert (verdict(60).suits, verdict(60).soft) == (True, ())
    assert verdict(90).soft[0].kind == "interfacing_rather_stiff"
    assert not verdict(150).suits


def test_a_fusing_iron_and_acrylic_do_not_go_together():
    """Heat-shy fibres are named with what to do instead."""
    cloth = cut(fibres=(FibreShare("acrylic", 100),)).cloth
    notion = Notion(kind=NotionKind.INTERFACING, name="i", mass_gsm=60, fusible=True)

    assert "With acrylic a hot iron does harm" in says(interfacing_suits(notion, cloth).soft)[0]


def test_a_lining_is_lighter_than_its_cloth_and_washes_like_it():
    """Unwashed viscose (5 %) inside washed wool puckers."""
    main = cut(mass_gsm=290.0)
    heavy, crepe = cut(mass_gsm=320.0), cut(washed=False, mass_gsm=120.0, shrink_along_pct=5.0)

    assert not goes_with(heavy, main, Role.LINING).suits
    assert goes_with(crepe, main, Role.LINING).soft == (
        fact("shrink_apart", apart_pct=5.0),
    )


def test_a_contrast_is_of_the_same_making():
    """A knit pocket on a woven shirt pulls."""
    knit = cut(construction=Construction.KNIT)

    assert goes_with(knit, cut(), Role.CONTRAST).hard
