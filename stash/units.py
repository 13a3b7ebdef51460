"""The only place that knows centimetres, inches, yards and lignes.

Everything inside Lengthwise is millimetres, grams per square metre and degrees;
these functions read what a person types and write what a person reads.
"""

from __future__ import annotations

import re
from enum import StrEnum
from fractions import Fraction

from stash.errors import InvalidInput

INCH_MM = 25.4
YARD_MM = 914.4
LIGNES_PER_INCH = 40
GSM_PER_OZ_YD2 = 33.90575

_LENGTH_MM = {
    "mm": 1.0, "cm": 10.0, "m": 1000.0,
    "in": INCH_MM, "inch": INCH_MM, "inches": INCH_MM, '"': INCH_MM, "”": INCH_MM, "″": INCH_MM,
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


class System(StrEnum):
    """The units a person reads."""

    METRIC = "metric"
    INCHES = "inches"


def parse_length(text: str, *, unit: str | None = None, field: str = "length") -> float:
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
            raise _not_a_length(text, field)
        name = term.group(_TERM.groups).lower() or unit
        if name is None:
            raise InvalidInput("unit_wanted", typed=text.strip(), field=field)
        if name not in _LENGTH_MM:
            raise _not_a_length(text, field)
        total += _number(term) * _LENGTH_MM[name]
        end = term.end()
    if not 0 < total <= LONGEST_MM:
        raise _not_a_length(text, field)
    return total


def parse_size(text: str, *, unit: str = "cm", field: str = "size") -> tuple[float, float]:
    """(length_mm, width_mm) from "150x114" or "1.5 m x 45 in"."""
    sides = re.split(r"[x×*]", text.strip(), flags=re.IGNORECASE)
    if len(sides) != 2:
        raise InvalidInput("not_a_size", typed=text.strip(), field=field)
    return (
        parse_length(sides[0], unit=unit, field=field),
        parse_length(sides[1], unit=unit, field=field),
    )


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


def format_length(mm: float, system: System = System.METRIC) -> str:
    """A length as it is said at the cutting table: 85 mm, 62.5 cm, 1.20 m, 1 3/8 yd, 22 1/2 in."""
    sign = "−" if mm < 0 else ""
    mm = abs(mm)
    if system is System.INCHES:
        if mm >= YARD_MM:
            return f"{sign}{_eighths(mm / YARD_MM)} yd"
        return f"{sign}{_eighths(mm / INCH_MM)} in"
    if mm >= 995:
        return f"{sign}{mm / 1000:.2f} m"
    if mm >= 100:
        return f"{sign}{mm / 10:.1f}".removesuffix(".0") + " cm"
    return f"{sign}{mm:.1f}".removesuffix(".0") + " mm"


def format_width(mm: float, system: System = System.METRIC) -> str:
    """A width of cloth as shops print it: 114 cm or 45 in."""
    if system is System.INCHES:
        return f"{_eighths(mm / INCH_MM)} in"
    return f"{mm / 10:.1f}".removesuffix(".0") + " cm"


def format_button(mm: float) -> str:
    """A button's diameter in both trade units: "11.4 mm (18L)"."""
    return f"{mm:.1f}".removesuffix(".0") + f" mm ({mm_to_ligne(mm):.0f}L)"


def format_turn(degrees: float) -> str:
    """How far a piece is turned, as finely as it can be set out on a table: 178.1°."""
    return f"{degrees:.1f}".removesuffix(".0") + "°"


def format_mass(gsm: float, system: System = System.METRIC) -> str:
    """Weight of cloth: 180 g/m² or 5.3 oz/yd²."""
    if system is System.INCHES:
        return f"{gsm / GSM_PER_OZ_YD2:.1f} oz/yd²"
    return f"{gsm:.0f} g/m²"


def mm_to_ligne(mm: float) -> float:
    """Lignes from millimetres: 40 lignes are one inch."""
    return mm * LIGNES_PER_INCH / INCH_MM


def ligne_to_mm(lignes: float) -> float:
    """Millimetres from lignes."""
    return lignes * INCH_MM / LIGNES_PER_INCH


def _number(term: re.Match[str]) -> float:
    whole, top, bottom, plain = term.group(2, 3, 4, 5)
    if plain:
        return float(plain.replace(",", "."))
    if int(bottom) == 0:
        raise InvalidInput("divides_by_nothing", typed=term.group(0).strip())
    return int(whole or 0) + int(top) / int(bottom)


def _eighths(value: float) -> str:
    eighths = round(value * 8)
    whole, rest = divmod(eighths, 8)
    if not rest:
        return str(whole)
    part = Fraction(rest, 8)
    return f"{whole or ''} {part.numerator}/{part.denominator}".strip()


def _not_a_length(text: str, field: str) -> InvalidInput:
    return InvalidInput(
        "not_a_length", typed=text.strip()[:40], example="1.5 m, 62 cm or 1 1/2 yd", field=field
    )
