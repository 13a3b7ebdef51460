"""The metre rule against which every length on a page is drawn."""

from __future__ import annotations

from math import ceil

from markupsafe import Markup

from stash.units import YARD_MM, System

HEIGHT_PX = 26


def rule(extent_mm: float, system: System = System.METRIC) -> Markup:
    """A rule over the whole width of its place, which stands for ``extent_mm``.

    Positions are percentages, so that the figures stay readable at any width.
    """
    whole, parts = (YARD_MM, 4) if system is System.INCHES else (1000.0, 10)
    name = "yd" if system is System.INCHES else "m"
    ticks, words = [], []
    for step in range(ceil(extent_mm / whole * parts) + 1):
        at = step * whole / parts
        if at > extent_mm + 0.5:
            break
        full, half = step % parts == 0, step * 2 % parts == 0
        x = f"{min(at / extent_mm * 100, 99.9):.3f}%"
        top = HEIGHT_PX - (12 if full else 8 if half else 5)
        ticks.append(f'<line x1="{x}" x2="{x}" y1="{top}" y2="{HEIGHT_PX}"/>')
        if full and step:
            anchor = "end" if at > extent_mm * 0.96 else "middle"
            words.append(
                f'<text x="{x}" y="11" font-size="12" text-anchor="{anchor}">'
                f"{step // parts} {name}</text>"
            )
    return Markup(
        f'<svg class="scale" width="100%" height="{HEIGHT_PX}" aria-hidden="true">'
        f"{''.join(ticks)}{''.join(words)}</svg>"
    )


def extent(lengths_mm: list[float], least_mm: float = 1000.0) -> float:
    """How much a drawing must span: the longest, and never less than the rule's one metre."""
    return max([least_mm, *lengths_mm]) * 1.0
