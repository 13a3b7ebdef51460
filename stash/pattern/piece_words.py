"""A correction as it is typed: "back: fold, cut 1, grain 90, allowance 15mm"."""

from __future__ import annotations

from math import isfinite

from stash.errors import InvalidInput
from stash.model import ClothWants, Need, NotionKind, Part, Role
from stash.model.amounts import read_amount, read_notion_size
from stash.pattern.correcting import PieceChange
from stash.pattern.lying import SIDES
from stash.quantity import Quantity, read_length, read_length_or_nothing

PARTS = {part.value: part for part in Part}
POINTED = ("fold", "grain", "notch", "mark")
ROLES = {role.value: role for role in Role}
NEAR_SIZE = 0.1  # a size that was written on a pattern may be missed by a tenth: chosen here


def parse_change(text: str) -> tuple[str, PieceChange]:
    """("back", the change) from the name of a piece, a colon, and words between commas."""
    name, colon, words = text.partition(":")
    if not colon or not name.strip() or not words.strip():
        raise InvalidInput("not_a_correction", typed=text.strip()[:60], field="piece")
    values: dict[str, object] = {}
    for word in (" ".join(w.split()).lower() for w in words.split(",")):
        values |= _value(word, words)
    return name.strip(), PieceChange(**values)  # type: ignore[arg-type]


def _value(word: str, whole: str) -> dict[str, object]:
    first, _, rest = word.partition(" ")
    if word in (*SIDES, "flat"):
        return {"fold": word}
    if word.startswith("no notch at "):
        return {"unnotch_at_mm": _place(word.removeprefix("no notch at "))}
    if first in POINTED and rest.startswith("at "):
        return {f"{first}_at_mm": _place(rest.removeprefix("at "))}
    if word in PARTS:
        return {"part": PARTS[word]}
    if word in ROLES:
        return {"role": ROLES[word]}
    if word in ("pair", "mirrored"):
        return {"pair": True}
    if word in ("single", "one way", "both ways"):
        return {"pair": False} if word == "single" else {"one_way": word == "one way"}
    if first == "cut" and rest.isdecimal():
        return {"quantity": int(rest)}
    if first == "grain":
        return {"grain_deg": parse_turn(rest)}
    if word in ("allowance none", "lengthen nowhere"):
        return {"allowance_mm" if first == "allowance" else "lengthen_at_mm": 0.0}
    if word.startswith("allowance in "):
        return {"included_mm": _length(rest[3:])}
    if first == "allowance":
        return {"allowance_mm": _length(rest)}
    if first == "lengthen":
        return _alters(rest)
    if first == "name" and rest:
        original = next(w for w in whole.split(",") if " ".join(w.split()).lower() == word)
        return {"name": " ".join(original.split())[5:]}
    raise InvalidInput("not_a_correction_word", typed=word[:40], field="piece")


def _alters(text: str) -> dict[str, object]:
    """From "at 20cm", "at 20cm by 6cm" or "by 6cm": where a piece alters, and how far."""
    at, by, most = text.removeprefix("at ").partition("by ")
    said: dict[str, object] = {"lengthen_at_mm": _length(at)} if at.strip() or not by else {}
    return said | ({"length_most_mm": _length(most.removeprefix("at most "))} if by else {})


def _length(text: str) -> float:
    return read_length(text.strip(), Quantity.PATTERN, field="piece")


def _place(text: str) -> tuple[float, float]:
    """(30.0, 80.0) from "3cm down 8cm across": from the top, and from the left side."""
    down, said, across = text.removesuffix("across").partition("down")
    if not said or not text.endswith("across"):
        raise InvalidInput("not_a_place", typed=text[:40], field="piece")
    return (
        read_length_or_nothing(down.strip(), Quantity.PATTERN, field="piece"),
        read_length_or_nothing(across.strip(), Quantity.PATTERN, field="piece"),
    )


def parse_turn(text: str, field: str = "piece") -> float:
    """Degrees, at most once round."""
    plain = text.removesuffix("deg").removesuffix("°").strip().replace(",", ".")
    try:
        turn = float(plain)
    except ValueError:
        turn = 1e9
    if not -360 <= turn <= 360:
        raise InvalidInput("not_a_turn", typed=text[:20], field=field)
    return turn


def parse_weights(text: str) -> tuple[float, float]:
    """(120.0, 250.0) from "120-250", grams a square metre; "any" is every weight."""
    if text.strip().lower() == "any":
        return ClothWants().mass_gsm
    least, _, most = text.replace("–", "-").partition("-")
    low, high = _number(least, "weight"), _number(most or least, "weight")
    if not 0 <= low <= high:
        raise InvalidInput("not_a_number", typed=text.strip()[:20], field="weight")
    return low, high


def parse_percent(text: str) -> float:
    """A share from 0 to 200."""
    share = _number(text.removesuffix("%"), "stretch")
    if not 0 <= share <= 200:
        raise InvalidInput("not_a_number", typed=text[:20], field="stretch")
    return share


def _number(text: str, field: str) -> float:
    try:
        value = float(text.replace(",", ".").strip())
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise InvalidInput("not_a_number", typed=text[:20], field=field)
    return value


def parse_need(text: str) -> Need:
    """"5 buttons 15 mm", "1 zip 20 cm", "elastic 90cm, 25mm wide": how much, of what, what size."""
    words = text.replace(",", " ").removesuffix("wide").split()
    at = next((i for i, w in enumerate(words) if _kind(w)), None)
    if at is None:
        raise InvalidInput("not_a_need", typed=text.strip()[:60], field="needs")
    kind = _kind(words[at])
    assert kind is not None
    before, after = " ".join(words[:at]), words[at + 1:]
    if before:
        amount, size = before, " ".join(after)
    else:
        amount, size = _first_length(after)
    value = read_amount(kind, amount, field="needs")
    return written_need(kind, value, read_notion_size(kind, size, field="needs"))


def written_need(kind: NotionKind, value: float, size_mm: float | None) -> Need:
    """How many, or how many mm, of what and of which size: a tenth either way serves."""
    if not value:
        raise InvalidInput("not_a_need", typed="0", field="needs")
    near = None
    if size_mm is not None:
        near = (size_mm * (1 - NEAR_SIZE), size_mm, size_mm * (1 + NEAR_SIZE))
    return Need(
        kind=kind, why="as written on the pattern", size_mm=near,
        count=int(value) if kind.counted else None, length_mm=None if kind.counted else value,
    )


def _kind(word: str) -> NotionKind | None:
    plain = word.lower()
    return next((k for k in NotionKind if plain in (k.value, f"{k.value}s")), None)


def _first_length(words: list[str]) -> tuple[str, str]:
    """The first length of words such as "90 cm 25 mm", and what follows it."""
    cut = 2 if words and words[0].replace(".", "").isdecimal() else 1
    return " ".join(words[:cut]), " ".join(words[cut:])
