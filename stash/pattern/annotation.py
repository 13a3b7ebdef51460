"""What the words on a pattern piece say: how many to cut, in pairs, on the fold, of which cloth."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from stash.model import Role

MOST_PIECES = 200
_LEFT_RIGHT = re.compile(r"\b(?:quantity|qty)\.?\s*[:=]?\s*(\d{1,3})\s*,\s*(\d{1,3})\b", re.I)
_QUANTITY = re.compile(
    r"\b(?:quantity|qty|cut|count)\.?\s*[:=]?\s*(\d{1,3})\b|(?:^|\s)(\d{1,3})\s*[x×](?:\s|$)"
    r"|(?:^|\s)[x×]\s*(\d{1,3})\b",
    re.I,
)
_PAIRS = re.compile(r"\b(?:(\d{1,2}|one|two|a)\s+)?(?:mirrored\s+)?pairs?\b", re.I)
_MIRRORED = re.compile(
    r"\bmirrored\b(?!\s+line)|\bleft\s*(?:and|&|\+|/)\s*right\b|\bL\s*[/+&]\s*R\b", re.I
)
_FOLD = re.compile(r"\b(?:on|to|at)\s+(?:the\s+)?fold\b|\bcentre fold\b", re.I)
_NAME = re.compile(r"^\s*(?:piece\s*)?name\s*[:=]\s*(.+?)\s*$", re.I)
_ROLES = (
    (Role.INTERFACING, re.compile(r"\binterfacing\b|\bfusible\b|\binterlining\b", re.I)),
    (Role.LINING, re.compile(r"\blining\b", re.I)),
    (Role.CONTRAST, re.compile(r"\bcontrast\b", re.I)),
)
_NUMBERS = {"one": 1, "a": 1, "two": 2}


@dataclass(frozen=True, kw_only=True)
class Annotation:
    """What was said; None where nothing was."""

    name: str | None = None
    quantity: int | None = None
    mirrored_pair: bool = False
    on_fold: bool = False
    role: Role = Role.MAIN


def read_annotation(texts: Iterable[str]) -> Annotation:
    """What lines such as "Piece Name: Front", "Quantity: 2" or "cut a pair on the fold" say.

    "Quantity: 1,1" counts left and right apart, so it is a mirrored pair. The
    wording of ASTM D6673 texts is from memory; plain cutting words are common
    practice, no source.
    """
    lines = [" ".join(t.split())[:200] for t in texts]
    joined = " \n ".join(lines)
    quantity, mirrored = _quantity(joined)
    return Annotation(
        name=next((m.group(1) for line in lines if (m := _NAME.match(line))), None),
        quantity=quantity,
        mirrored_pair=mirrored,
        on_fold=bool(_FOLD.search(joined)),
        role=next((role for role, word in _ROLES if word.search(joined)), Role.MAIN),
    )


def _quantity(text: str) -> tuple[int | None, bool]:
    """(how many pieces, whether half of them are mirrored)."""
    if sides := _LEFT_RIGHT.search(text):
        left, right = int(sides.group(1)), int(sides.group(2))
        return _sane(left + right), left == right > 0
    said = _QUANTITY.search(text)
    quantity = _sane(int(next(g for g in said.groups() if g))) if said else None
    pairs = _PAIRS.search(text)
    if pairs:
        number = (pairs.group(1) or "").lower()
        counted = _NUMBERS.get(number) or (int(number) if number.isdecimal() else 1)
        if quantity is None or (number and quantity == counted):
            quantity = 2 * counted
    mirrored = bool(pairs or _MIRRORED.search(text))
    if mirrored and quantity is None:
        quantity = 2
    return quantity, mirrored and quantity is not None and quantity % 2 == 0


def _sane(quantity: int) -> int | None:
    return quantity if 1 <= quantity <= MOST_PIECES else None
