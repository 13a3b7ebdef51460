"""Words that always fit their box: wrapped, then shrunk, at the very last shortened."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass

from stash.sentences.unbroken import units_kept

WHOLE_WORDS_DOWN_TO = 0.6
STEP_PT = 0.5

WidthOf = Callable[[str], float]
"""Width in mm of a line of text at one point."""


@dataclass(frozen=True)
class Fitted:
    """Lines that fit, at this size."""

    size_pt: float
    lines: tuple[str, ...]


def fit(
    text: str, width_mm: float, lines: int, sizes_pt: tuple[float, float], measure: WidthOf
) -> Fitted:
    """The largest of ``sizes_pt`` (largest, smallest) at which ``text`` takes at most ``lines``.

    Words stay whole down to a middling size; below that a long word may break, so that one
    does not make everything tiny. What still does not fit at the smallest ends in an ellipsis.
    """
    largest, smallest = sizes_pt
    middling = max(smallest, WHOLE_WORDS_DOWN_TO * largest)
    for may_break, least in ((False, middling), (True, smallest)):
        size = largest if not may_break else middling
        while size >= least:
            wrapped = _wrap(text, width_mm / size, measure, may_break=may_break)
            if wrapped is not None and len(wrapped) <= lines:
                return Fitted(size, tuple(wrapped))
            size = size - STEP_PT if size - STEP_PT >= least or size <= least else least
    wrapped = _wrap(text, width_mm / smallest, measure, may_break=True) or []
    rest = " ".join(wrapped[lines - 1 :])
    return Fitted(
        smallest, (*wrapped[: lines - 1], _shorten(rest, width_mm / smallest, measure))
    )


def clusters(text: str) -> list[str]:
    """What a reader takes for single characters: marks and joiners stay with their letter."""
    found: list[str] = []
    for character in text:
        joins = unicodedata.category(character)[0] == "M" or character in "\u200c\u200d"
        after_joiner = found and found[-1][-1] == "\u200d"
        if found and (joins or after_joiner):
            found[-1] += character
        else:
            found.append(character)
    return found


def _wrap(text: str, room: float, measure: WidthOf, *, may_break: bool) -> list[str] | None:
    """Greedy lines no wider than ``room``; None when a word is too wide and may not break."""
    lines = [""]
    for word in _words(units_kept(text)):
        if measure((lines[-1] + word).rstrip()) <= room:
            lines[-1] += word
        elif measure(word.rstrip()) <= room:
            lines.append(word)
        elif not may_break:
            return None
        else:
            _break_into(lines, word, room, measure)
    return [line.rstrip() for line in lines if line.strip()]


def _words(text: str) -> list[str]:
    """Words with the space after them; scripts written without spaces may turn anywhere."""
    found: list[str] = [""]
    for cluster in clusters(text):
        if _ends(found[-1], cluster) or (found[-1] and _turns_anywhere(cluster)):
            found.append("")
        found[-1] += cluster
    return [word for word in found if word]


def _ends(word: str, following: str) -> bool:
    """Whether a line may end here: not within a fraction of an inch."""
    return word[-1:] in {" ", "-"} or (word[-1:] == "/" and not following.isdigit())


def _turns_anywhere(cluster: str) -> bool:
    return unicodedata.east_asian_width(cluster[0]) in {"W", "F"} and cluster[0].isalpha()


def _break_into(lines: list[str], word: str, room: float, measure: WidthOf) -> None:
    for cluster in clusters(word):
        if lines[-1] and measure((lines[-1] + cluster).rstrip()) > room:
            lines.append("")
        lines[-1] += cluster


def _shorten(text: str, room: float, measure: WidthOf) -> str:
    kept = clusters(text)
    while kept and measure("".join(kept).rstrip() + "…") > room:
        kept.pop()
    return "".join(kept).rstrip() + "…"
