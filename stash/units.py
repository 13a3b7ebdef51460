"""Centimetres, inches, yards and lignes, as a person types and reads them.

Everything inside Lengthwise is millimetres, grams per square metre and degrees;
these functions read what a person types and write what a person reads.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from enum import StrEnum
from fractions import Fraction

from stash.errors import InvalidInput

INCH_MM = 25.4
YARD_MM = 914.4
LIGNES_PER_INCH = 40
# The sizes that button makers list; their tables, with sources, are stash/notions/lignes.csv.
SOLD_LIGNES = (
    8, 10, 12, 13, 14, 15, 16, 17, 18, 20, 21, 22, 23, 24, 26, 27, 28, 30, 32, 34,
    36, 38, 40, 42, 44, 45, 48, 54, 60, 64,
)
GSM_PER_OZ_YD2 = 33.90575

_LENGTH_MM = {
    "mm": 1.0, "cm": 10.0, "m": 1000.0,
    "in": INCH_MM, "inch": INCH_MM, "inches": INCH_MM, '"': INCH_MM, "”": INCH_MM, "″": INCH_MM,
    "zoll": INCH_MM, "po": INCH_MM, "pouce": INCH_MM, "pouces": INCH_MM,
    "ft": 304.8, "foot": 304.8, "feet": 304.8,
    "yd": YARD_MM, "yds": YARD_MM, "yard": YARD_MM, "yards": YARD_MM,
    "l": INCH_MM / LIGNES_PER_INCH, "ligne": INCH_MM / LIGNES_PER_INCH,
    "lignes": INCH_MM / LIGNES_PER_INCH,
}
_MASS_GSM = dict.fromkeys(("g/m2", "g/m²", "gsm"), 1.0) | dict.fromkeys(
    ("oz/yd2", "oz/yd²", "oz"), GSM_PER_OZ_YD2
)
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_NUMBER = re.compile(r"(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)|(\d+(?:[.,]\d+)?|[.,]\d+)")
_TERM = re.compile(rf"\s*({_NUMBER.pattern})\s*([a-z\"”″]*)", re.IGNORECASE)
LONGEST_MM = 1_000_000.0
MANY_YARDS = 20
EXACT = 1e-6


class System(StrEnum):
    """The units a person reads."""

    METRIC = "metric"
    INCHES = "inches"


def parse_length(
    text: str, *, unit: str | None = None, field: str = "length",
    example: str = "62 cm, 1.5 m, 1 1/2 yd",
) -> float:
    """Millimetres from "1.5 m", "1 1/2 yd", '45"', "2 m 30 cm", "36L".

    A bare number takes ``unit``; without one it is refused, since 150 may be
    millimetres or centimetres. Raises InvalidInput for anything that is not a
    length above nothing and below a kilometre.
    """
    total, end = 0.0, 0
    cleaned = "".join(f" {_VULGAR[c]}" if c in _VULGAR else c for c in text.strip())
    while end < len(cleaned):
        term = _TERM.match(cleaned, end)
        if not term:
            raise _not_a_length(text, field, example)
        name = term.group(_TERM.groups).lower() or unit
        if name is None:
            raise InvalidInput(
                "unit_wanted", typed=text.strip()[:40], example=example, field=field)
        if name not in _LENGTH_MM:
            raise _not_a_length(text, field, example)
        total += _number(term) * _LENGTH_MM[name]
        end = term.end()
    if not 0 < total <= LONGEST_MM:
        raise _not_a_length(text, field, example)
    return total


def sides(text: str, *, field: str = "size") -> tuple[str, str]:
    """The two sides of "150x114" or "1.5 m x 45 in", as they were typed."""
    typed = re.split(r"[x×*]", text.strip(), flags=re.IGNORECASE)
    if len(typed) != 2:
        raise InvalidInput("not_a_size", typed=text.strip()[:60], field=field)
    first, second = (side.strip() for side in typed)
    unit = re.search(r"[a-z\"”″]+$", second, flags=re.IGNORECASE)
    if unit and re.fullmatch(r"[\d.,\s/¼½¾⅛⅜⅝⅞]+", first) and first.strip("0., "):
        first = f"{first} {unit[0]}"  # "64 x 32 in" are inches both
    return first, second


def parse_mass(text: str, *, field: str = "mass") -> float:
    """Grams per square metre from "180", "180 g/m2" or "5 oz/yd2"."""
    found = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(\S*)\s*", text)
    unit = (found.group(2).lower() or "gsm") if found else ""
    if not found or unit not in _MASS_GSM:
        raise InvalidInput("not_a_mass", typed=text.strip(), field=field)
    mass = float(found.group(1).replace(",", ".")) * _MASS_GSM[unit]
    if not 1 <= mass <= 3000:
        raise InvalidInput("no_cloth_weighs", mass_gsm=mass, field=field)
    return mass


def format_length(mm: float, system: System) -> str:
    """A length as it is said at the cutting table: 85 mm, 62.5 cm, 1.20 m, 1 3/8 yd, 22 1/2 in."""
    if system is System.INCHES:
        return format_tape(mm, system) if abs(mm) < YARD_MM else _said(mm / YARD_MM, _eighths, "yd")
    if abs(mm) >= 995:
        return _said(mm / 1000, _hundredths, "m")
    if abs(mm) >= 100:
        return format_tape(mm, system)
    return _said(mm, _tenths, "mm")


def format_roll(mm: float, system: System) -> str:
    """A length off the roll, always in its unit: 1.20 m, 0.85 m, 1 3/8 yd, 1/2 yd."""
    if system is System.INCHES:
        return _said(mm / YARD_MM, _yards, "yd")
    return _said(mm / 1000, _hundredths if abs(mm) >= 95 else _thousandths, "m")


def format_wound(mm: float, system: System) -> str:
    """Thread of one seam or of a spool: whole metres or yards without a point, else as a length.

    A spool of so many metres is told in whole yards, as its label tells it.
    """
    unit_mm, unit = (YARD_MM, "yd") if system is System.INCHES else (1000.0, "m")
    count = mm / unit_mm
    if unit == "yd" and count >= MANY_YARDS:
        return f"{count:.0f} yd"
    return f"{count:.0f} {unit}" if abs(count - round(count)) < EXACT else format_length(mm, system)


def format_tape(mm: float, system: System) -> str:
    """What a tape measures on a body, a pattern, across a cloth: 104.5 cm or 41 1/8 in."""
    if system is System.INCHES:
        return _said(mm / INCH_MM, _eighths, "in")
    return _said(mm / 10, _tenths, "cm")


def format_small(mm: float, system: System) -> str:
    """An allowance, a margin, the width of a tape: 15 mm or 5/8 in."""
    if system is System.INCHES:
        return _said(mm / INCH_MM, _sixteenths, "in")
    return _said(mm, _tenths, "mm")


def format_error(mm: float, system: System, *, fine: bool = False) -> str:
    """How far a length may be out: 0.3 mm, 7 mm, 8 cm, 12 cm, 1.2 m; 0.01 in, 3/8 in, 3 in.

    Never more than two figures, nor finer than lengths are told; ``fine`` is for what is told
    to a tenth of a millimetre. What is out at all is never out by nothing.
    """
    if system is System.INCHES:
        inches = mm / INCH_MM
        if inches >= 1:
            return f"{inches:.0f} in"
        if inches >= 1 / 16:
            return _said(inches, _sixteenths if fine else _eighths, "in") if (
                fine or inches >= 1 / 8) else "1/16 in"
        return f"{max(inches, 0.01):.2f} in" if mm else "0 in"
    if mm >= 1000:
        return f"{_tenths(mm / 1000)} m"
    if mm >= 10:
        return f"{mm / 10:.0f} cm"
    if fine or mm < 1:
        return f"{_tenths(max(mm, 0.1))} mm" if mm else "0 mm"
    return f"{mm:.0f} mm" if mm < 9.5 else "1 cm"


def significant(value: float) -> float:
    """A value to two figures: an error told finer claims more than anybody knows."""
    return float(f"{value:.2g}")


def format_width(mm: float, system: System) -> str:
    """A width of cloth as shops print it: 114 cm or 45 in."""
    return format_tape(mm, system)


def format_button(mm: float) -> str:
    """A button's diameter in both trade units: "11.4 mm (18L)"."""
    return f"{_tenths(mm)} mm ({sold_ligne(mm)}L)"


def format_turn(degrees: float) -> str:
    """How far a piece is turned, as finely as it can be set out on a table: 178.1°."""
    return _said(degrees, _tenths, "°").replace(" ", "")


def format_mass(gsm: float, system: System) -> str:
    """Weight of cloth: 180 g/m² or 5.3 oz/yd²."""
    if system is System.INCHES:
        return f"{gsm / GSM_PER_OZ_YD2:.1f} oz/yd²"
    return f"{gsm:.0f} g/m²"


def sold_ligne(diameter_mm: float) -> int:
    """The size a button of this diameter is sold as: 20 mm is a 32L, though it measures 31.5."""
    return min(SOLD_LIGNES, key=lambda size: abs(size - mm_to_ligne(diameter_mm)))


def mm_to_ligne(mm: float) -> float:
    """Lignes from millimetres: 40 lignes are one inch."""
    return mm * LIGNES_PER_INCH / INCH_MM


def _number(term: re.Match[str]) -> float:
    whole, top, bottom, plain = term.group(2, 3, 4, 5)
    if plain:
        return float(plain.replace(",", "."))
    if int(bottom) == 0:
        raise InvalidInput("divides_by_nothing", typed=term.group(0).strip())
    return int(whole or 0) + int(top) / int(bottom)


def _said(value: float, write: Callable[[float], str], unit: str) -> str:
    """The value with its sign and unit; what is rounded to nothing has no sign."""
    number = write(abs(value))
    return f"{'−' if value < 0 and _is_something(number) else ''}{number} {unit}"


def _is_something(number: str) -> bool:
    return any(digit in number for digit in "123456789")


def _tenths(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _hundredths(value: float) -> str:
    return f"{value:.2f}"


def _thousandths(value: float) -> str:
    return f"{value:.3f}"


def _eighths(value: float) -> str:
    return _fraction(value, 8)


def _sixteenths(value: float) -> str:
    return _fraction(value, 16)


def _yards(value: float) -> str:
    """Eighths as shops cut them; sixteenths where an eighth would be off by over a centimetre."""
    if value < 1 / 16:
        return _fraction(value, 64)
    off_mm = abs(round(value * 8) / 8 - value) * YARD_MM
    return _fraction(value, 8 if off_mm <= 10 else 16)


def _fraction(value: float, parts: int) -> str:
    whole, rest = divmod(round(value * parts), parts)
    if not rest:
        return str(whole)
    part = Fraction(rest, parts)
    return f"{whole or ''} {part.numerator}/{part.denominator}".strip()


def _not_a_length(text: str, field: str, example: str) -> InvalidInput:
    return InvalidInput("not_a_length", typed=text.strip()[:40], example=example, field=field)
