"""``--bite``: what is missing of a cut, in words."""

from __future__ import annotations

import re
from typing import Any

from stash.errors import InvalidInput
from stash.quantity import Quantity, read_length
from stash.units import sides
from stash.workroom.cuts import Bite, End, LongSide, Pieces

SIZE = re.compile(r"[x×*]", re.IGNORECASE)


def parse_bite(text: str) -> Bite:
    """"end far, edge left, 40cm x 30cm": a corner; "edge left, 30cm": a strip all along.

    "from near 50cm, from right 20cm, 10cm x 10cm" is a hole, counted from the near end and
    the right edge.
    """
    found: dict[str, Any] = {}
    size = ""
    for part in text.split(","):
        word, _, rest = part.strip().lower().partition(" ")
        if word in ("end", "edge"):
            found[word] = _side(word, rest.strip(), text)
        elif word == "from":
            found |= _offset(rest, text)
        else:
            size = part.strip()
    return Bite(**found, **_size(size, found, text))


def parse_pieces(text: str) -> Pieces:
    """"2 x 40cm x 40cm": how many, how long, how wide."""
    parts = SIZE.split(text)
    if len(parts) != 3 or not parts[0].strip().isdecimal():
        raise InvalidInput("not_pieces", typed=text.strip()[:60], field="pieces")
    return Pieces(
        count=int(parts[0]), length_mm=read_length(parts[1], Quantity.PATTERN, field="pieces"),
        width_mm=read_length(parts[2], Quantity.PATTERN, field="pieces"))


def _side(word: str, typed: str, text: str) -> End | LongSide:
    try:
        return End(typed) if word == "end" else LongSide(typed)
    except ValueError:
        raise _not_a_bite(text) from None


def _offset(rest: str, text: str) -> dict[str, float]:
    side, _, length = rest.strip().partition(" ")
    if side not in ("near", "right"):
        raise _not_a_bite(text)
    return {f"from_{side}_mm": read_length(length, Quantity.PATTERN, field="bite")}


def _size(typed: str, found: dict[str, Any], text: str) -> dict[str, Any]:
    if not typed:
        raise _not_a_bite(text)
    if SIZE.search(typed):
        along, across = sides(typed, field="bite")
        return {"length_mm": read_length(along, Quantity.PATTERN, field="bite"),
                "width_mm": read_length(across, Quantity.PATTERN, field="bite")}
    name = "width_mm" if "edge" in found and "end" not in found else "length_mm"
    return {name: read_length(typed, Quantity.PATTERN, field="bite")}


def _not_a_bite(text: str) -> InvalidInput:
    return InvalidInput("not_a_bite", typed=text.strip()[:60], field="bite")
