"""Weights as they are typed: a swatch, so many pieces, so much of a strip."""

from __future__ import annotations

import re
from math import isfinite

from stash.errors import InvalidInput
from stash.model.amounts import AMOUNT, read_amount
from stash.model.notions import NotionKind
from stash.quantity import Quantity, read_length
from stash.units import sides

GRAMS = re.compile(r"(?P<rest>.*\S)\s+(?P<grams>\d+(?:[.,]\d+)?)\s*(?P<unit>g|kg)\s*")
PIECES = re.compile(r"(?P<count>\d+)\s*[a-z]*\s*", re.IGNORECASE)


def read_grams(text: str, *, field: str = "grams") -> float:
    """Grams of "412", "412 g" or "1.2 kg"; more than nothing."""
    found = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(g|kg|)\s*", text)
    grams = float(found[1].replace(",", ".")) * (1000 if found[2] == "kg" else 1) if found else 0.0
    if not (isfinite(grams) and grams > 0):
        raise InvalidInput("not_grams", typed=text.strip()[:40], field=field)
    return grams


def read_swatch(text: str, *, field: str = "swatch") -> tuple[float, float, float]:
    """(length_mm, width_mm, grams) of "10cm x 10cm 2.1g"."""
    found = GRAMS.fullmatch(text.strip())
    if not found:
        raise InvalidInput("not_a_swatch", typed=text.strip()[:40], field=field)
    along, across = sides(found["rest"], field=field)
    return (read_length(along, Quantity.PATTERN, field=field),
            read_length(across, Quantity.PATTERN, field=field), _grams(found))


def read_known(kind: NotionKind, text: str, *, field: str = "per") -> tuple[float, float]:
    """(amount, grams) of "40 pieces 32g", or of "3m 27g" for what is sold by length."""
    found = GRAMS.fullmatch(text.strip())
    if not found:
        raise InvalidInput("not_a_known_weight", typed=text.strip()[:40], field=field)
    if kind.counted:
        pieces = PIECES.fullmatch(found["rest"])
        count = pieces["count"] if pieces else found["rest"]
        return read_amount(kind, count, field=field), _grams(found)
    return read_length(found["rest"], AMOUNT[kind], field=field), _grams(found)


def _grams(found: re.Match[str]) -> float:
    return float(found["grams"].replace(",", ".")) * (1000 if found["unit"] == "kg" else 1)
