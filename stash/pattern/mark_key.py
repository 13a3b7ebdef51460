"""What the numbers on a drawing stand for, told under it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from stash.pattern.figure import Figure
from stash.pattern.lettering import Style, Words, words_wide

SHARE = 0.7  # of the letters in a piece
ROW_LETTERS = 1.8
BETWEEN = " \u00b7 "


def with_numbers(figures: Iterable[Figure]) -> tuple[list[Figure], list[str]]:
    """The figures with their numbers, and what each stands for: "1 hip line", "2 crease".

    The same words bear the same number on every piece.
    """
    numbers: dict[str, int] = {}

    def numbered(words: Words) -> Words:
        if not words.stands_for:
            return words
        number = numbers.setdefault(words.stands_for, len(numbers) + 1)
        return replace(words, text=str(number))

    told = [replace(f, words=tuple(numbered(w) for w in f.words)) for f in figures]
    return told, [f"{number}\u00a0{said}" for said, number in numbers.items()]


def key_rows(
    told: Sequence[str], width_mm: float, top_mm: float, style: Style
) -> tuple[list[Words], float]:
    """The key in rows no wider than the drawing, each from its left edge, and how deep they reach,
    in mm."""
    (letter,) = style.heights([SHARE])
    rows: list[str] = []
    for one in told:
        longer = f"{rows[-1]}{BETWEEN}{one}" if rows else one
        if rows and words_wide(longer) * letter <= width_mm:
            rows[-1] = longer
        else:
            rows.append(one)
    deep = ROW_LETTERS * letter
    words = [Words(row, (0.0, top_mm + (n + 1) * deep), letter) for n, row in enumerate(rows)]
    return words, top_mm + (len(rows) + 0.5) * deep if rows else top_mm
