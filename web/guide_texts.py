"""The guide: ten short pages a language, written in ``docs/guide`` and served as help."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from markdown_it import MarkdownIt

from stash.sentences.unbroken import units_kept

# An installed app carries the guide inside its own package (setup.py); a checkout has it in docs/.
_INSTALLED = Path(__file__).parent / "guide_pages"
FOLDER = _INSTALLED if _INSTALLED.is_dir() else Path(__file__).parents[1] / "docs" / "guide"
_NUMBERED = re.compile(r"\d\d-([a-z-]+)")


@dataclass(frozen=True)
class GuidePage:
    """One page: its name in addresses, its heading, and its text as HTML without the heading."""

    name: str
    title: str
    html: str


@cache
def guide(language: str) -> tuple[GuidePage, ...]:
    """The pages in reading order; in English where a language has none of its own."""
    folder = FOLDER / language
    if not folder.is_dir():
        folder = FOLDER / "en"
    return tuple(_read(path) for path in sorted(folder.glob("*.md")))


def _read(path: Path) -> GuidePage:
    heading, _, text = path.read_text(encoding="utf-8").partition("\n")
    numbered = _NUMBERED.fullmatch(path.stem)
    name = numbered.group(1) if numbered else path.stem
    # No HTML of its own, no links but those written: a page cannot do more than be read.
    html = MarkdownIt("commonmark", {"html": False}).render(units_kept(text))
    return GuidePage(name, heading.removeprefix("# ").strip(), html)


def picture(language: str, name: str) -> Path | None:
    """The file of a picture, None where the guide has none of that name."""
    known = {path.name: path for path in (FOLDER / "pictures" / language).glob("*.webp")}
    return known.get(name)
