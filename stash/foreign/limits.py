"""How much a foreign file may cost to read; every limit of that kind stands here."""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, kw_only=True)
class Limits:
    """Seconds of work, memory beyond what the reader itself takes, and size of the answer.

    Seconds are the processor's where the system counts them, so that a busy machine refuses
    no file that a quiet one reads; else they are by the clock.
    """

    seconds: float
    memory_mb: int
    answer_mb: int = 50


DRAWING = Limits(seconds=10, memory_mb=700)
"""An SVG or DXF file."""
PICTURE = Limits(seconds=20, memory_mb=700)
"""A photograph that is kept, or searched for labels."""
MEASURED = Limits(seconds=180, memory_mb=1500)
"""Photographs that are measured: traced outlines, counted buttons."""
TABLE = Limits(seconds=20, memory_mb=500)
"""A spreadsheet."""


def photographs(count: int) -> Limits:
    """So many photographs, measured together: each takes as long again as half of the first."""
    return replace(MEASURED, seconds=MEASURED.seconds * (1 + (count - 1) / 2),
                   memory_mb=MEASURED.memory_mb + 150 * (count - 1))
