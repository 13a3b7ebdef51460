"""Options belong to a garment: declared once with their type, named by it, read by it."""

from __future__ import annotations

from typing import get_args, get_type_hints

import pytest

from stash.draft.catalogue import MODULES, about, garments
from stash.draft.chosen import by_garment
from stash.draft.garment import Choice, Garment, Measure
from stash.errors import InvalidInput


def garment(name: str) -> Garment:
    """The garment's own declaration."""
    module = __import__(f"stash.draft.{MODULES[name]}", fromlist=["GARMENT"])
    return module.GARMENT


@pytest.mark.parametrize("name", garments())
def test_every_option_has_a_type_that_says_what_it_can_be(name):
    """A word's type is the Literal of its words, a length's is a float, or a float or nothing
    where the draft works it out.
    """
    takes = garment(name).takes
    types = get_type_hints(takes)
    usual = takes.read({}, name)
    for option in takes.all():
        if isinstance(option, Choice):
            assert get_args(types[option.name]) == option.words
            assert getattr(usual, option.name) == option.words[0]
        else:
            assert types[option.name] == (float if option.default is not None else float | None)
            assert option.default is None or option.least_mm <= option.default <= option.most_mm


@pytest.mark.parametrize("name", garments())
def test_every_default_length_says_where_it_comes_from(name):
    """A published source, or that it is common practice."""
    for option in about(name).options:
        assert not isinstance(option, Measure) or option.source


def test_each_garment_gets_its_own_length():
    """100 cm of trousers leave the shirt at its own length."""
    chosen = by_garment(["trousers", "shirt"], {"trousers.length": 1000, "shirt.sleeve": "long"})

    assert chosen == {"trousers": {"length": 1000}, "shirt": {"sleeve": "long"}}


def test_a_bare_option_is_enough_where_only_one_garment_takes_it():
    """Only the trousers have a leg width; every garment has a seam allowance."""
    chosen = by_garment(["trousers", "shirt"], {"leg_width": 500, "seam": 10})

    assert chosen == {"trousers": {"leg_width": 500, "seam": 10}, "shirt": {"seam": 10}}


def test_what_is_named_wins_over_what_is_not():
    """All seams 10 mm, the shirt's 12."""
    chosen = by_garment(["trousers", "shirt"], {"shirt.seam": 12, "seam": 10})

    assert chosen == {"trousers": {"seam": 10}, "shirt": {"seam": 12}}


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"length": 1000}, "write trousers.length or shirt.length"),
        ({"skirt.length": 1000}, "not asked for; asked for are: trousers or shirt"),
        ({"shirt.leg_width": 500}, "None of these garments has an option “shirt.leg_width”"),
        ({"flare": 100}, "None of these garments has an option “flare”"),
    ],
)
def test_a_length_of_nobody_knows_which_garment_is_asked_for(given, says, sentence):
    """Length could be the trousers' or the shirt's; a skirt was not asked for."""
    with pytest.raises(InvalidInput) as refused:
        by_garment(["trousers", "shirt"], given)

    assert says in sentence(refused.value)


@pytest.mark.parametrize(
    ("options", "measured", "field", "says"),
    [
        ({"length": 450, "hem": 40}, {}, "length", "cannot be drawn from length 45 cm"),
        ({"seam_inside_leg": 50, "length": 467, "hem": 0}, {}, "length", "length 46.7 cm"),
    ],
)
def test_what_cannot_be_drawn_names_what_is_to_blame(options, measured, field, says, sentence):
    """Trousers of 45 cm are too short for their knee: the length is named, not the hip."""
    from stash.draft.catalogue import draft

    stout = {"hip": 1300, "waist": 1200, "bust": 1280, "height": 1550, **measured}
    with pytest.raises(InvalidInput) as refused:
        draft("trousers", stout, options)

    assert refused.value.field == field
    assert says in sentence(refused.value)
