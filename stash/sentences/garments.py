"""A garment as a person calls it: never by the word that commands use for it.

Several garments of a question are told apart by labels, ``shirt for Bram`` or
``a-line-skirt 2``, and their pieces by those, ``a-line-skirt front``. A pattern of her own
has the name that she gave it.
"""

from __future__ import annotations

from stash.sentences.reader import Reader
from stash.sentences.translations import translated
from stash.sentences.wording.garments import FOR_PERSON, GARMENTS

FOR = "for "


def garment_said(label: str, reader: Reader) -> str:
    """"A-line skirt", "Hemd für Bram", "tote bag 2", "circle skirt front"."""
    name = _begins_with(label)
    if name is None:
        return label
    word = translated(GARMENTS[name], reader.language)
    if reader.language == "fr":  # the A of an A-line is a capital in English only
        word = word[0].lower() + word[1:]
    rest = label[len(name) + 1 :]
    if rest.startswith(FOR):
        form = translated(FOR_PERSON, reader.language)
        return form.format(garment=word, person=rest.removeprefix(FOR))
    return f"{word} {translated(rest, reader.language)}" if rest else word


def _begins_with(label: str) -> str | None:
    known = (name for name in GARMENTS if label == name or label.startswith(f"{name} "))
    return max(known, key=len, default=None)
