"""Do I already own one like this?"""

from __future__ import annotations

import pytest

from stash.errors import InvalidInput
from stash.match.cloth.similar import Wish, alike
from stash.model import Cloth, Cut, FibreShare, Outline


def cut(code: str, name: str, colour: str | None = None, **more) -> Cut:
    """A metre of a cloth."""
    fibre = more.pop("fibre", "cotton")
    cloth = Cloth(name=name, fibres=(FibreShare(fibre, 100),),
                  colours=(colour,) if colour else (), **more)
    return Cut(code=code, cloth=cloth, outline=Outline.rectangle(1000, 1400))


STASH = (
    cut("WINE", "Wine poplin", "#7a1f2b", mass_gsm=120),
    cut("RUST", "Rust twill", "#8b3a2e", mass_gsm=260),
    cut("NAVY", "Navy lawn", "#23364a", mass_gsm=80, fibre="flax"),
    cut("PLAIN", "Unrecorded", None),
)


def test_nearest_colour_comes_first_and_other_colours_are_left_out():
    """Wine is the same, rust near, navy another colour."""
    found = alike(STASH, Wish(colour="#7b202c"))

    assert [like.cut.code for like in found] == ["WINE", "RUST"]
    assert found[0].nearness.kind == "same_colour"


def test_linen_finds_what_is_recorded_as_flax():
    """Regulation (EU) 1007/2011 Annex I no. 7: "flax (or linen)"."""
    assert [like.cut.code for like in alike(STASH, Wish(words="Linen"))] == ["NAVY"]


def test_every_word_must_be_there():
    """Words narrow the search."""
    assert [like.cut.code for like in alike(STASH, Wish(words="rust twill"))] == ["RUST"]
    assert alike(STASH, Wish(words="rust lawn")) == ()


def test_weight_is_asked_within_a_quarter_and_an_unrecorded_weight_does_not_count():
    """100 g/m² finds 120 and 80."""
    assert {like.cut.code for like in alike(STASH, Wish(mass_gsm=100))} == {"WINE", "NAVY"}


def test_a_cloth_of_several_colours_is_found_by_the_nearest_of_them():
    """A stripe of white and wine is like wine."""
    stripe = Cut(code="STRIPE", outline=Outline.rectangle(500, 900),
                 cloth=Cloth(name="Stripe", colours=("#ffffff", "#7a1f2b")))

    assert alike([stripe], Wish(colour="#7a1f2b"))[0].difference == pytest.approx(0, abs=1e-9)


def test_asking_nothing_is_refused_with_what_to_say():
    """One clear sentence."""
    with pytest.raises(InvalidInput, match="nothing_to_look_for"):
        alike(STASH, Wish())


def test_a_colour_that_cannot_be_read_is_refused_even_by_an_empty_stash():
    """The sentence shows how to write it."""
    with pytest.raises(InvalidInput, match="not_a_colour"):
        alike((), Wish(colour="reddish"))
