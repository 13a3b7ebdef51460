"""French elides: "de" and "que" are "d’" and "qu’" before a vowel, whatever value puts it there."""

from __future__ import annotations

import string
import unicodedata
from collections.abc import Mapping

ELIDED = {"de ": "d’", "que ": "qu’"}
UNELIDED = ("oui", "onze")
"""Words that begin with a vowel and yet have none cut off before them. An h is not known by
sight to be mute or aspirated, so before it nothing is elided."""
_FORMATTER = string.Formatter()


def elided(template: str, said: Mapping[str, str]) -> str:
    """A French template filled with what is said, elided before each value."""
    whole = ""
    for literal, field, spec, conversion in _FORMATTER.parse(template):
        whole += literal
        if field is None:
            continue
        value = _FORMATTER.vformat(_field(field, spec, conversion), (), said)
        whole = _cut_off(whole, value) + value
    return whole


def _field(name: str, spec: str | None, conversion: str | None) -> str:
    return f"{{{name}{f'!{conversion}' if conversion else ''}{f':{spec}' if spec else ''}}}"


def _cut_off(before: str, value: str) -> str:
    first = unicodedata.normalize("NFD", value[:1].lower())[:1]
    if not first or first not in "aeiouœ" or value.lower().startswith(UNELIDED):
        return before
    for full, short in ELIDED.items():
        for form, cut in ((full, short), (full.capitalize(), short.capitalize())):
            if before.endswith(form) and not before[:-len(form)][-1:].isalpha():
                return before.removesuffix(form) + cut
    return before
