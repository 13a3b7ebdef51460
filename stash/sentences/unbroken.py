"""A number keeps to its unit: on a page and on paper no line ends between the two.

The space is U+00A0, as Unicode's line breaking (UAX #14) and the typography of all three
languages have it (Imprimerie nationale and DIN 5008, from memory). What a program reads, and a
command's text, keep the plain space; whoever copies either back is understood.
"""

from __future__ import annotations

import re

NO_BREAK = "\u00a0"
_BEHIND_NUMBER = re.compile(r"(?<=[\d¼½¾⅛⅜⅝⅞]) (?=\S)")
# What follows a number in a sentence, or the place of one, and belongs to it. "in" is too
# often a word.
_UNIT = (
    r"(?:mm|cm|m|km|m²|yd|yd²|po|Zoll|Yard|g|kg|g/m²|oz|oz/yd²|%%?|°C|s|h|min|MB|Mo|€|£|\$)"
    r"(?![\w’'²/(])"
)
_PAIRED = re.compile(rf"(\d|\}}|\)[sdg]|\)\.\df) (?={_UNIT}|[×/] )")
_TIMES = re.compile(r"(×) (?=[\d{%])")


def unbroken(quantity: str) -> str:
    """A quantity alone, with no place for a line to end between a number and what follows it."""
    return _BEHIND_NUMBER.sub(NO_BREAK, quantity)


def times(one: str, other: str) -> str:
    """A size, "1.60 m × 140 cm", in one piece."""
    return f"{one}{NO_BREAK}×{NO_BREAK}{other}"


def units_kept(text: str) -> str:
    """A sentence, or the template of one, its numbers kept to their units and to a ×."""
    return _TIMES.sub(rf"\1{NO_BREAK}", _PAIRED.sub(rf"\1{NO_BREAK}", text))
