"""Words a person types, with what they mean in the record: Baumwolle and coton are cotton."""

from __future__ import annotations

import re
from functools import cache

from stash.fibres import fibres
from stash.model import Construction, NotionKind
from stash.sentences.reader import LANGUAGES
from stash.sentences.translations import translated

MOST_TERMS = 12
LONGEST_ENDING = 2
"""A word may have an ending that its table has not: boutons, Knöpfen."""
SHORTEST = 3
"""A shorter beginning of a word stands for too many."""


def terms(typed: str) -> list[str]:
    """The words of what was typed."""
    return [word.casefold() for word in re.findall(r"\w+", typed)][:MOST_TERMS]


def question(term: str) -> str:
    """What the full-text index is asked: the word, or one that means the same in the record."""
    words = dict.fromkeys((term, *(_means(term) if len(term) >= SHORTEST else ())))
    return " OR ".join(f'"{word}"*' for word in words)


def _means(term: str) -> tuple[str, ...]:
    return tuple(english for word, english in _dictionary() if word.startswith(term)
                 or len(word) >= SHORTEST and term.startswith(word)
                 and len(term) - len(word) <= LONGEST_ENDING)


@cache
def _dictionary() -> tuple[tuple[str, str], ...]:
    """(word in another language, the English word that is in the record)."""
    english = [fibre.name for fibre in fibres()]
    english += [also for fibre in fibres() for also in fibre.also]
    english += [one.value for kinds in (Construction, NotionKind) for one in kinds]
    found = [
        (part.casefold(), word)
        for word in english for language in LANGUAGES[1:]
        for part in re.findall(r"\w+", translated(word, language))
    ]
    return tuple(dict.fromkeys(pair for pair in found if pair[0] != pair[1]))
