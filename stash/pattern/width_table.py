"""The table printed on a paper pattern: the length of cloth it needs at each cloth width.

Without the pieces no lay can be made, so every answer is an estimate by rules.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib import resources

from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.quantity import Quantity, read_length
from stash.units import INCH_MM, YARD_MM

SAME_WIDTH_MM = 8.0  # 44 in and 45 in cloth are sold as one width; common practice, no source


@dataclass(frozen=True)
class WidthEstimate:
    """A length of cloth that should serve, and the rule it comes from."""

    length_mm: float
    reason: Fact


@dataclass(frozen=True)
class WidthTable:
    """Rows of (cloth width in mm, length needed in mm), as printed on a pattern."""

    rows_mm: tuple[tuple[float, float], ...]

    def __post_init__(self) -> None:
        rows = sorted(self.rows_mm)
        if not rows or any(not (100 <= w <= 5000 and 50 <= n <= 50_000) for w, n in rows):
            raise InvalidInput("table_needs_rows")
        if len({w for w, _ in rows}) < len(rows):
            raise InvalidInput("table_width_twice")
        if any(longer > shorter for (_, shorter), (_, longer) in zip(rows, rows[1:], strict=False)):
            raise InvalidInput("table_wider_needs_more")
        object.__setattr__(self, "rows_mm", tuple(rows))

    def need_mm(self, width_mm: float) -> WidthEstimate:
        """The length that should serve at this usable width.

        A listed width gives the printed length, and so does any wider cloth up to the
        next listed width: it always serves. Narrower than every row, the published
        conversion chart is used.
        """
        printed = [row for row in self.rows_mm if row[0] <= width_mm + SAME_WIDTH_MM]
        if not printed:
            return self._narrower(width_mm)
        listed, length = printed[-1]
        wider = width_mm > listed + SAME_WIDTH_MM
        kind = "printed_for_narrower" if wider else "printed_for_width"
        return WidthEstimate(length, fact(kind, listed_width_mm=listed))

    def _narrower(self, width_mm: float) -> WidthEstimate:
        listed, length = self.rows_mm[0]
        converted = convert_mm(length, listed, width_mm)
        if converted is None:
            raise InvalidInput(
                "table_too_narrow", width_mm=width_mm, narrowest_width_mm=listed, field="width")
        return WidthEstimate(
            converted,
            fact("converted_from_width", length_mm=length, listed_width_mm=listed),
        )


def parse_table(rows: Iterable[str]) -> WidthTable:
    """The table written as "114cm=2.5m" or "45in=2 3/4yd", a row each."""
    pairs = []
    for row in rows:
        width, equals, length = row.partition("=")
        if not equals:
            raise InvalidInput("not_a_table_row", typed=row.strip()[:40], field="rows")
        pairs.append((
            read_length(width, Quantity.WIDTH, field="rows"),
            read_length(length, Quantity.PRINTED_LENGTH, field="rows"),
        ))
    return WidthTable(tuple(pairs))


def convert_mm(length_mm: float, from_width_mm: float, to_width_mm: float) -> float | None:
    """The length that serves instead at another width, by the published chart.

    Both the chart's columns and its rows are interpolated; None where a width is
    more than 1.5 in outside the chart.
    """
    widths, rows = chart_mm()
    slack = 1.5 * INCH_MM
    if not all(widths[0] - slack <= w <= widths[-1] + slack for w in (from_width_mm, to_width_mm)):
        return None
    here = [_between(widths, row, from_width_mm) for row in rows]
    there = [_between(widths, row, to_width_mm) for row in rows]
    if length_mm <= here[0]:
        return length_mm * there[0] / here[0]
    if length_mm >= here[-1]:
        return length_mm * there[-1] / here[-1]
    return _between(here, there, length_mm)


def _between(xs: list[float], ys: list[float], x: float) -> float:
    """Linear interpolation, held at the ends."""
    if x <= xs[0]:
        return ys[0]
    for x0, x1, y0, y1 in zip(xs, xs[1:], ys, ys[1:], strict=False):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return ys[-1]


@cache
def chart_mm() -> tuple[list[float], list[list[float]]]:
    """(cloth widths, rows of equivalent lengths), both in mm; the source stands in the file."""
    text = resources.files(__package__).joinpath("width_conversion.csv").read_text("utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    header, *rows = csv.reader(lines)
    widths = [float(w) * INCH_MM for w in header[1:]]
    return widths, [[float(cell) * YARD_MM for cell in row[1:]] for row in rows]
