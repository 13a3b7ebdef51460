"""Places: shelves, boxes and drawers, and what lies in them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from operator import itemgetter

from stash.errors import InvalidInput, NotFound
from stash.ledger import Event
from stash.store import Stash
from stash.store.bins import BinCard
from stash.store.cuts import CutCard
from stash.store.naming import key_of
from stash.store.places import Place

__all__ = ["Place"]


@dataclass(frozen=True, kw_only=True)
class PlaceRow:
    """A place in a list: the code of its label, if it has one, and how much lies there."""

    name: str
    code: str | None
    things: int


@dataclass(frozen=True, kw_only=True)
class Contents:
    """A place with all that lies in it; ``codes`` in the order of the record."""

    place: Place
    codes: list[str]
    cuts: list[CutCard]
    bins: list[BinCard]
    photos: dict[str, str]


def names(stash: Stash) -> list[str]:
    """Every place something is said to lie in, labelled or not."""
    return stash.places.names()


def rows(stash: Stash) -> list[PlaceRow]:
    """Every place, for a list."""
    labelled, written = stash.places.all(), stash.places.things()
    keys = {name: key_of(name) for name in (*written, *(place.name for place in labelled))}
    codes = {keys[place.name]: place.code for place in labelled}
    things: Counter[str] = Counter()
    for name, number in written.items():
        things[keys[name]] += number
    return [PlaceRow(name=name, code=codes.get(key), things=things[key])
            for name, key in sorted(keys.items(), key=itemgetter(1))]


def receive(
    stash: Stash, name: str, code: str | None = None, token: str | None = None, *, notes: str = ""
) -> tuple[Event, Place]:
    """Give a place a label, a blank one that was scanned or a fresh one."""
    event = stash.places.receive(name, code, token, notes=notes)
    return event, stash.places.get(event.code)


def find(stash: Stash, typed: str) -> Place:
    """A place by the code of its label, or by its name, labelled or not."""
    try:
        return stash.places.get(typed)
    except (InvalidInput, NotFound):
        pass
    if place := stash.places.find(typed):
        return place
    if stash.places.contents(typed):
        return Place(code="", name=typed)
    raise NotFound("no_such_place", typed=typed, known=tuple(stash.places.names()[:12]))


def contents(stash: Stash, place: Place) -> Contents:
    """What lies in a place."""
    codes = stash.places.contents(place.name)
    return Contents(
        place=place, codes=codes,
        cuts=stash.cuts.cards_of(codes), bins=stash.bins.cards_of(codes),
        photos=stash.photos.first_of(codes),
    )


def named(stash: Stash, name: str) -> Place:
    """A place by its name alone; one that nothing lies in yet has no code."""
    return stash.places.find(name) or Place(code="", name=name)
