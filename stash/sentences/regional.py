"""Where British and American sewists call one thing by two names, both are shown.

Only where something is asked for or named on its own: a sentence says the British word.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from stash.sentences.reader import Reader
from stash.sentences.translations import translated


@cache
def regional_pairs() -> dict[str, tuple[str, str]]:
    """(British, American) by either of them."""
    text = files("stash.sentences").joinpath("regional_words.csv").read_text(encoding="utf-8")
    pairs = [(row["british"], row["american"]) for row in csv.DictReader(text.splitlines())]
    return {word: pair for pair in pairs for word in pair}


def both_names(word: str, reader: Reader) -> str:
    """"inside leg (inseam)", "Trousers (pants)"; in French and German the one word there is."""
    pair = regional_pairs().get(word.lower())
    if reader.language != "en" or pair is None:
        return translated(word, reader.language)
    british, american = pair
    if word[:1].isupper():
        british = british[:1].upper() + british[1:]
    return f"{british} ({american})"
