"""The fonts embedded in everything printed, and which of them has a character.

Licences are in LICENSES.txt beside the files. DejaVu carries Latin, Greek, Cyrillic,
Armenian, Hebrew, Arabic and Georgian; the others are opened only for words that
need their script.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from functools import cache
from importlib.resources import files
from pathlib import Path

from fontTools.ttLib import TTFont

REGULAR = "DejaVuSansCondensed.ttf"
BOLD = "DejaVuSansCondensed-Bold.ttf"

# First character of each Unicode block (The Unicode Standard, Blocks.txt) and its font;
# None where the two main fonts are all there is.
_BLOCKS: tuple[tuple[int, str | None], ...] = (
    (0x0000, None),
    (0x0900, "NotoSansDevanagari-Regular.ttf"),
    (0x0980, "NotoSansBengali-Regular.ttf"),
    (0x0A00, "NotoSansGurmukhi-Regular.ttf"),
    (0x0A80, "NotoSansGujarati-Regular.ttf"),
    (0x0B00, None),
    (0x0B80, "NotoSansTamil-Regular.ttf"),
    (0x0C00, "NotoSansTelugu-Regular.ttf"),
    (0x0C80, "NotoSansKannada-Regular.ttf"),
    (0x0D00, "NotoSansMalayalam-Regular.ttf"),
    (0x0D80, "NotoSansSinhala-Regular.ttf"),
    (0x0E00, "NotoSansThai-Regular.ttf"),
    (0x0E80, "NotoSansLao-Regular.ttf"),
    (0x0F00, None),
    (0x1000, "NotoSansMyanmar-Regular.ttf"),
    (0x10A0, None),
    (0x1100, "DroidSansFallbackFull.ttf"),
    (0x1200, "NotoSansEthiopic-Regular.ttf"),
    (0x13A0, None),
    (0x1780, "NotoSansKhmer-Regular.ttf"),
    (0x1800, None),
    (0x2E80, "DroidSansFallbackFull.ttf"),
    (0xA000, None),
    (0xAC00, "DroidSansFallbackFull.ttf"),
    (0xD800, None),
    (0xF900, "DroidSansFallbackFull.ttf"),
    (0xFB00, None),
    (0xFF00, "DroidSansFallbackFull.ttf"),
    (0xFFF0, None),
)
_STARTS = [start for start, _ in _BLOCKS]


def font_path(name: str) -> Path:
    """Where a font of this package lies."""
    return Path(str(files(__package__) / name))


def script_font(character: str) -> str | None:
    """The font beside the main ones that has this character, or None."""
    name = _BLOCKS[bisect_right(_STARTS, ord(character)) - 1][1]
    return name if name and ord(character) in _characters(name) else None


def printable(text: str) -> str:
    """One line of text with every character that no font has shown as an open box."""
    one_line = _BLANK.sub(" ", text).strip()
    return "".join(c if _drawable(c) else "▯" for c in one_line if c.isprintable() or c in _KEPT)


_BLANK = re.compile(r"[^\S\u00a0\u202f]+")
_KEPT = "\u200c\u200d\u00a0\u202f"
"""Joiners, and the spaces at which no line ends."""


def _drawable(character: str) -> bool:
    return ord(character) in _characters(REGULAR) or script_font(character) is not None


@cache
def _characters(name: str) -> frozenset[int]:
    with TTFont(font_path(name), lazy=True) as font:
        return frozenset(font.getBestCmap())
