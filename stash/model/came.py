"""When a cut came: a day, a month or a year, as far as anybody remembers."""

from __future__ import annotations

import re
from datetime import date

from stash.errors import InvalidInput

_ISO = re.compile(r"(\d{4})(-\d{2})?(-\d{2})?")
_DAY_FIRST = re.compile(r"(\d{1,2})([./])(\d{1,2})[./](\d{4})")
_MONTH_FIRST = re.compile(r"(\d{1,2})[./](\d{4})")


def parse_came(text: str) -> str:
    """"2024-03-09", "2024-03" or "2024" of what was typed; also 9.3.2024, and 3/2024.

    A day written with slashes only where it can mean one thing; else InvalidInput.
    """
    typed = text.strip()
    found = ""
    if _ISO.fullmatch(typed):
        found = typed
    elif parts := _DAY_FIRST.fullmatch(typed):
        day, month = int(parts[1]), int(parts[3])
        if parts[2] == "." or day > 12 or day == month:
            found = f"{parts[4]}-{month:02}-{day:02}"
    elif parts := _MONTH_FIRST.fullmatch(typed):
        found = f"{parts[2]}-{int(parts[1]):02}"
    if not found or first_day(found) is None:
        raise InvalidInput("day_in_row", typed=typed[:40], field="acquired")
    return found


def first_day(came: str) -> date | None:
    """The day itself, or the first of that month or year; None of what is no day."""
    try:
        return date.fromisoformat(came[:10] + {4: "-01-01", 7: "-01"}.get(len(came), ""))
    except ValueError:
        return None
