"""What each piece is of its garment is a field of the piece; its name is only for people."""

from __future__ import annotations

import pytest

from stash.draft import catalogue
from stash.model import Part, Role

WOMAN = {"hip": 1000.0, "waist": 780.0, "bust": 940.0}
# The parts a cutter names on sight; common practice, no source.
PARTS = {
    ("trousers", "waist", "fitted"): {
        "front": Part.FRONT, "back": Part.BACK, "waistband": Part.WAISTBAND,
        "fly facing": Part.FLY, "fly shield": Part.FLY,
    },
    ("trousers", "pockets", "side"): {"pocket bag": Part.POCKET},
    ("shirt", "pockets", "patch"): {
        "front": Part.FRONT, "back": Part.BACK, "sleeve": Part.SLEEVE, "collar": Part.COLLAR,
        "facing": Part.FACING, "pocket": Part.POCKET,
    },
    ("shirt", "facing", "own-binding"): {"bias strip": Part.BINDING},
    ("robe", "belt", "tie"): {"band": Part.BAND, "belt": Part.BELT, "belt loop": Part.LOOP},
    ("nightshirt", "opening", "buttons"): {"placket": Part.PLACKET},
    ("straight-skirt", "lining", "full"): {"front lining": Part.FRONT, "back": Part.BACK},
}


@pytest.mark.parametrize(("garment", "option", "word"), PARTS)
def test_every_piece_says_which_part_of_the_garment_it_is(garment, option, word):
    """A collar is a collar and a facing a facing, without anyone reading its name."""
    pattern = catalogue.draft(garment, WOMAN, {option: word})
    parts = {p.name: p.part for p in pattern.pieces}
    assert {name: parts[name] for name in PARTS[garment, option, word]} == PARTS[
        garment, option, word
    ]


@pytest.mark.parametrize("garment", ["trousers", "shirt", "tunic", "nightshirt"])
def test_interfacing_is_of_the_part_that_it_stiffens(garment):
    """The interfacing of a collar is a piece of the collar, cut from interfacing."""
    options = {"waist": "fitted"} if garment == "trousers" else {}
    pattern = catalogue.draft(garment, WOMAN, options)
    sewn = {p.part for p in pattern.pieces if p.role is Role.MAIN}
    fused = {p.part for p in pattern.pieces if p.role is Role.INTERFACING}
    assert fused and fused <= sewn
