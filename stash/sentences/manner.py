"""How numbers and dates are written in a reader's language.

English is written as the house writes anyway; babel knows the rest: the decimal mark, the
order of day and month. Babel is loaded only when another language is read.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime

from stash.sentences.reader import Reader
from stash.sentences.unbroken import unbroken

# Units that another language does not write as English does (common practice, no source).
UNITS = {"fr": {" in": " po"}, "de": {" in": " Zoll", " yd": " Yard"}}
# The point of a decimal, and the comma of thousands.
_MARK = re.compile(r"(?<=\d)\.(?=\d)|(?<=\d),(?=\d{3}(?!\d))")


def in_the_manner_of(text: str, reader: Reader) -> str:
    """A number with its unit, as "1.20 m", in the reader's manner: "1,20 m"."""
    if reader.unbroken:
        return unbroken(_in_language(text, reader))
    return _in_language(text, reader)


def _in_language(text: str, reader: Reader) -> str:
    if reader.language == "en":
        return text
    for english, own in UNITS.get(reader.language, {}).items():
        if text.endswith(english):
            text = text.removesuffix(english) + own
    decimal, group = _marks(reader.language)
    return _MARK.sub(lambda mark: decimal if mark[0] == "." else group, text)


def apart(sayings: Iterable[str], reader: Reader) -> str:
    """Sayings beside each other, "a; b"; French has a space before the mark as well."""
    return ("\u00a0; " if reader.language == "fr" else "; ").join(sayings)


def day(moment: str, reader: Reader) -> str:
    """The day of an ISO date or moment: 2026-03-14, 14.03.2026, 14/03/2026."""
    if reader.language == "en":
        return moment[:10]
    from babel.dates import format_date

    try:
        return format_date(datetime.fromisoformat(moment[:10]), "dd.MM.yyyy"
                           if reader.language == "de" else "dd/MM/yyyy", reader.language)
    except ValueError:
        return moment[:10]


def month(moment: str, reader: Reader) -> str:
    """The month of an ISO date: 2026-03, or 03/2026."""
    year, dash, number = moment[:7].partition("-")
    if reader.language == "en" or not dash:
        return moment[:7]
    return f"{number}/{year}"


def minute(moment: str, reader: Reader) -> str:
    """The day and the minute of an ISO moment."""
    return f"{day(moment, reader)} {moment[11:16]}".strip()


def _marks(language: str) -> tuple[str, str]:
    from babel.numbers import get_decimal_symbol, get_group_symbol

    return get_decimal_symbol(language), get_group_symbol(language)
