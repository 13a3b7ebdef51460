"""Translations: gettext catalogues beside this file, one folder a language."""

from __future__ import annotations

import gettext
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).with_name("catalogues")
DOMAIN = "lengthwise"


def translated(text: str | tuple[str, str, float], language: str) -> str:
    """A text, or (one, many, count), in a language; English where there is no translation."""
    catalogue = _catalogue(language)
    if isinstance(text, str):
        return catalogue.gettext(text)
    one, many, count = text
    # Babel's rule for English and German: only one is one; French counts below two so.
    return catalogue.ngettext(one, many, int(count) if count == int(count) else 2)


@cache
def _catalogue(language: str) -> gettext.NullTranslations:
    return gettext.translation(DOMAIN, FOLDER, [language], fallback=True)
