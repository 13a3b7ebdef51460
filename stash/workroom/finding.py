"""One search for pages and commands: words in any of the languages, facets, one page at a time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from stash.ledger import Event
from stash.store import Stash
from stash.store import finding as found_in
from stash.store.bins import BinCard
from stash.store.counting import facet_counts
from stash.store.cuts import CutCard
from stash.store.finding import FACETS, CutQuery, CutsFound
from stash.store.searches import KeptSearch

__all__ = ["FACETS", "CutQuery", "KeptSearch"]

MOST = 1_000_000
MOST_COUNTED = 64
Counted = TypeVar("Counted")
_counted: dict[object, Any] = {}


@dataclass(frozen=True, kw_only=True)
class FoundCuts:
    """One page of what was found, and of all of it the number, the length and the longest.

    ``photos`` has the first photograph of each that has one, ``counts`` by facet and value.
    """

    page: list[CutCard]
    count: int
    total_mm: float
    longest_mm: float
    photos: dict[str, str]
    counts: dict[str, Counter[str]]


def cuts(stash: Stash, query: CutQuery, first: int = 0, most: int = MOST) -> FoundCuts:
    """The cuts that answer to the query, from the ``first`` on, with the counts of each facet."""
    with found_in.worded(stash.ledger.db, query) as here:
        found = found_in.found_cuts(here, query, first, most)
        counts = _unchanged(stash, query, lambda: facet_counts(here, query))
    return FoundCuts(
        page=stash.cuts.cards_of(found.codes), count=found.count, total_mm=found.total_mm,
        longest_mm=found.longest_mm, photos=stash.photos.first_of(found.codes), counts=counts)


def _unchanged(stash: Stash, query: CutQuery | None, count: Callable[[], Counted]) -> Counted:
    """What was counted before, unless something was recorded since: most looks come between."""
    key = (stash.folder.path, stash.ledger.head(), query)
    found: Counted | None = _counted.get(key)
    if found is None:
        found = count()
        if len(_counted) >= MOST_COUNTED:
            _counted.clear()
        _counted[key] = found
    return found


def totals(stash: Stash) -> CutsFound:
    """Of all cuts that are here, the number, the length and the longest."""
    return _unchanged(stash, None, lambda: _found(stash, CutQuery(), 0))


def cut_cards(stash: Stash, words: str) -> list[CutCard]:
    """The cuts that are here and hold every word."""
    return stash.cuts.cards_of(_found(stash, CutQuery(words=words), MOST).codes)


def _found(stash: Stash, query: CutQuery, most: int) -> CutsFound:
    with found_in.worded(stash.ledger.db, query) as here:
        return found_in.found_cuts(here, query, 0, most)


def bin_cards(stash: Stash, words: str) -> list[BinCard]:
    """The bins that are here and hold every word."""
    return stash.bins.cards_of(found_in.found_bins(stash.ledger.db, words))


def bin_kinds(stash: Stash, words: str, size_said: Callable[[float], str]) -> dict[str, str]:
    """The kind of each bin that is here and holds every word, by its code, the newest first."""
    return found_in.found_bins(stash.ledger.db, words, size_said)


def kept(stash: Stash) -> list[KeptSearch]:
    """The searches she keeps, by name."""
    return stash.searches.all()


def keep(stash: Stash, name: str, query: str, token: str | None = None) -> Event:
    """Keep a search under a name."""
    return stash.searches.keep(name, query, token)


def forget(stash: Stash, name: str, token: str | None = None) -> Event:
    """Keep it no longer."""
    return stash.searches.forget(name, token)
