"""Whose body table serves: women's, men's or children's, why, and whether that is certain.

What nobody said is presumed from the measurements; a presumption that could be wrong is
marked, so that the person can be asked. A short adult is not a child: below 1.55 m the
girth decides, beside the girth that a child of that height has.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from stash.draft.body_table import KEYS, child_girth

WOMEN, MEN, CHILDREN = BODIES = ("women", "men", "children")

# The children's table ends where the shortest adults are well known: ANSUR II's 5th
# percentile of women's height is 152.5 cm. Between these heights a girth decides.
ADULT_FROM_MM = 1550.0
GROWING_UP_TO_MM = 1400.0
# Girths of the smallest adult row (ANSUR II, hip band 84 cm of men; bust 83.2 cm).
ADULT_GIRTH_MM = {"hip": 840.0, "bust": 830.0, "waist": 700.0}
# Without a height: under these girths a child, clearly so by 3 cm more (chosen here).
CHILD_GIRTH_MM = {"hip": 800.0, "bust": 740.0}
CLEARLY_MM = 30.0
# How far over a child's girth of that height a grown body or a stout child may be taken
# for certain (chosen here: a fifth over is past the 95th percentile of ANSUR II's hips
# over their median, 13.5 %).
CLEARLY_MORE = 1.2
# ANSUR II waist over hip: women mean 0.84, men 0.92, both about 0.065 apart from them.
STOUT, SLIM = 0.9, 0.78


class Why(StrEnum):
    """What decided which table serves."""

    SAID = "said"
    SMALL = "small"
    HEIGHT = "height"
    CHEST = "chest"
    WAIST = "waist"
    USUAL = "usual"


@dataclass(frozen=True)
class TableChoice:
    """Whose table serves, what decided it, and whether that can be relied on."""

    kind: str
    why: Why
    certain: bool


def likely_table(given: Mapping[str, float], *, said_chest: bool = False) -> TableChoice:
    """The table that suits the measurements (mm) best when nobody said which."""
    child, sure = _is_child(given)
    if child:
        return TableChoice(CHILDREN, Why.HEIGHT if "height" in given else Why.SMALL, sure)
    if said_chest:
        return TableChoice(MEN, Why.CHEST, False)
    if "waist" in given and "hip" in given:
        share = given["waist"] / given["hip"]
        return TableChoice(MEN if share > STOUT else WOMEN, Why.WAIST, sure and share < SLIM)
    return TableChoice(WOMEN, Why.USUAL, False)


def _is_child(given: Mapping[str, float]) -> tuple[bool, bool]:
    """(whether it is a child, whether that is certain)."""
    height = given.get("height")
    if height is None:
        return _small(given)
    if height >= ADULT_FROM_MM:
        return False, True
    key = next((k for k in KEYS if k in given), None)
    if key is None or key == "height":
        return True, height < GROWING_UP_TO_MM
    more = given[key] / child_girth(height, key)
    if height < GROWING_UP_TO_MM:
        return True, more < CLEARLY_MORE
    grown = given[key] >= ADULT_GIRTH_MM[key]
    return not grown, more >= CLEARLY_MORE if grown else more <= 1.0


def _small(given: Mapping[str, float]) -> tuple[bool, bool]:
    known = [k for k in CHILD_GIRTH_MM if k in given]
    child = any(given[k] < CHILD_GIRTH_MM[k] for k in known)
    sure = bool(known) and all(abs(given[k] - CHILD_GIRTH_MM[k]) > CLEARLY_MM for k in known)
    return child, sure
