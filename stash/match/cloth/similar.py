"""Do I already own one like this? Search by colour, words, fibre and weight."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from stash.errors import InvalidInput
from stash.eye.colour.difference import CLOSE, NEAR, difference, is_colour, lab
from stash.fact import Fact, fact
from stash.model import Bin, Cloth, Cut

# Beyond this two colours are simply different; common practice, no source.
FAR = 18.0
# The same fibre under the name it is sold by.
SAME_FIBRE = {"linen": "flax", "nylon": "polyamide", "rayon": "viscose", "spandex": "elastane"}


@dataclass(frozen=True, kw_only=True)
class Wish:
    """What the thing in one's hand is like; what is None is not asked."""

    colour: str | None = None
    words: str = ""
    mass_gsm: float | None = None
    mass_within_pct: float = 25.0

    @property
    def masses_gsm(self) -> tuple[float, float] | None:
        """The least and the greatest weight that will do; None when it is not asked."""
        if self.mass_gsm is None:
            return None
        most = self.mass_gsm * self.mass_within_pct / 100
        return self.mass_gsm - most, self.mass_gsm + most


@dataclass(frozen=True)
class Likeness:
    """A cut and how near it comes; ``difference`` is CIEDE2000, None when not asked or known."""

    cut: Cut
    difference: float | None

    @property
    def nearness(self) -> Fact:
        """How near, as one would say it side by side."""
        return fact(_nearness(self.difference))


@dataclass(frozen=True)
class NotionLikeness:
    """A bin and how near its colour comes; ``difference`` is CIEDE2000."""

    held: Bin
    difference: float

    @property
    def nearness(self) -> Fact:
        """How near, as one would say it side by side."""
        return fact(_nearness(self.difference))


def alike(cuts: Sequence[Cut], wish: Wish, *, most: int = 20) -> tuple[Likeness, ...]:
    """The cuts that come nearest the wish, nearest first; InvalidInput when nothing is asked."""
    if not (wish.colour or wish.words.strip() or wish.mass_gsm):
        raise InvalidInput("nothing_to_look_for", field="words")
    kept = [cut for cut in cuts if _weighs(cut.cloth, wish)]
    kept = _worded(kept, wish.words)
    if not wish.colour:
        return tuple(Likeness(cut, None) for cut in kept[:most])
    apart = _apart(kept, wish.colour)
    order = [int(i) for i in np.argsort(apart, kind="stable")[:most] if apart[i] <= FAR]
    return tuple(Likeness(kept[i], float(apart[i])) for i in order)


def spellings(words: str) -> list[tuple[str, ...]]:
    """Of each word, what may stand for it in what is said of a cloth."""
    wanted = [SAME_FIBRE.get(w, w) for w in re.findall(r"\w+", words.lower())]
    return [
        tuple(dict.fromkeys((word, *_large_beyond_ascii(word),
                             *(sold for sold, own in SAME_FIBRE.items() if word in own))))
        for word in wanted]


def _large_beyond_ascii(word: str) -> tuple[str, ...]:
    """As SQLite leaves such letters when it makes a text small."""
    return (word[:1].upper() + word[1:] if not word[:1].isascii() else word,
            "".join(c if c.isascii() else c.upper() for c in word))


def colour_apart(cloths: Mapping[str, Sequence[str]], colour: str) -> dict[str, float]:
    """By their keys, how far each cloth's nearest colour is; those too far are left out."""
    keys = list(cloths)
    apart = _nearest([cloths[key] for key in keys], colour)
    return {key: float(apart[i]) for i, key in enumerate(keys) if apart[i] <= FAR}


def _worded(cuts: Sequence[Cut], words: str) -> list[Cut]:
    wanted = [SAME_FIBRE.get(w, w) for w in re.findall(r"\w+", words.lower())]
    if not wanted:
        return list(cuts)
    texts: dict[int, str] = {}
    kept = []
    for cut in cuts:
        text = texts.get(id(cut.cloth))
        if text is None:
            text = texts[id(cut.cloth)] = _text(cut.cloth)
        here = f"{text} {cut.place or ''} {cut.keep_for or ''} {cut.code}".lower()
        if all(word in here for word in wanted):
            kept.append(cut)
    return kept


def _text(cloth: Cloth) -> str:
    fibres = " ".join(share.fibre for share in cloth.fibres)
    # Sold as linen, recorded as flax: found by either name, also within the cloth's own name.
    named = " ".join(v for k, v in SAME_FIBRE.items() if k in cloth.name.lower())
    made = cloth.construction or ""
    return f"{cloth.name} {named} {fibres} {made} {cloth.notes} {cloth.care}"


def _weighs(cloth: Cloth, wish: Wish) -> bool:
    if wish.mass_gsm is None:
        return True
    if cloth.mass_gsm is None:
        return False
    return abs(cloth.mass_gsm - wish.mass_gsm) <= wish.mass_gsm * wish.mass_within_pct / 100


def _apart(cuts: Sequence[Cut], colour: str) -> np.ndarray:
    """CIEDE2000 of each cut's nearest colour; infinite where no colour is recorded."""
    return _nearest([cut.cloth.colours for cut in cuts], colour)


def _nearest(colours: Sequence[Sequence[str]], colour: str) -> np.ndarray:
    rows: list[int] = []
    written: list[str] = []
    for row, own_colours in enumerate(colours):
        for own in own_colours:
            if is_colour(own):
                rows.append(row)
                written.append(own)
    apart = np.full(len(colours), np.inf)
    target = lab([colour])
    if rows:
        distinct, back = np.unique(written, return_inverse=True)
        each = difference(lab(list(distinct)), target)[back]
        np.minimum.at(apart, rows, each)
    return apart


def _nearness(apart: float | None) -> str:
    if apart is None:
        return "agrees"
    if apart <= 2:
        return "same_colour"
    if apart <= CLOSE:
        return "very_close_colour"
    return "near_colour" if apart <= NEAR else "same_family_of_colour"
