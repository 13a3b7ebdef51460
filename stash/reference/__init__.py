"""Published tables, copied in as data; every row carries its source and its status."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files


@cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """Rows of ``NAME.csv`` beside this file, one dict a row, in the file's order."""
    text = (files(__name__) / f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))
