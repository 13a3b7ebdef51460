"""Labels: what a code is on, new codes for blank labels, and what was printed."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stash.errors import StashError
from stash.model import Bin, Code, Cut
from stash.store import Stash
from stash.store.bins import BinCard
from stash.store.cuts import CutCard
from stash.store.places import Place

MOST_SHOWN = 150


@dataclass(frozen=True, kw_only=True)
class Labelled:
    """A label and what it is on: ``what`` is cut, bin, place, blank or unknown."""

    code: str
    what: str
    cut: CutCard | None = None
    bin: BinCard | None = None
    place: Place | None = None


@dataclass(frozen=True, kw_only=True)
class LabelChoice:
    """What may be ticked: some cuts and bins, of ``count`` there are in all."""

    cuts: list[Cut]
    bins: list[Bin]
    count: int


def to_choose(stash: Stash, words: str, ticked: Sequence[str]) -> LabelChoice:
    """What answers to the words, or what came last, after what is ticked already."""
    if words.strip():
        found = stash.search(words)
        count = len(found)
    else:
        found = [*stash.cuts.newest(MOST_SHOWN), *stash.bins.newest(MOST_SHOWN)]
        count = stash.cuts.how_many() + stash.bins.how_many()
    codes = list(dict.fromkeys((*ticked, *found)))[: len(ticked) + MOST_SHOWN * 2]
    return LabelChoice(
        cuts=[card.cut for card in stash.cuts.cards_of(codes) if not card.gone],
        bins=[card.bin for card in stash.bins.cards_of(codes) if not card.gone], count=count)


def what(stash: Stash, code: str) -> str:
    """What a code is on: cut, bin, place, blank or unknown."""
    return stash.labels.state(code)


def labelled(stash: Stash, code: str) -> Labelled:
    """The thing a code is on; InvalidInput when it is no code at all."""
    code = Code.parse(code).text
    what = stash.labels.state(code)
    return Labelled(
        code=code, what=what,
        cut=stash.cuts.card(code) if what == "cut" else None,
        bin=stash.bins.card(code) if what == "bin" else None,
        place=stash.places.get(code) if what == "place" else None,
    )


def name_of(stash: Stash, code: str) -> str:
    """What bears the label is called; "" where nothing does, or where it cannot be asked."""
    try:
        on = labelled(stash, code)
    except (StashError, sqlite3.Error):  # closed or spoilt: spoken of all the same
        return ""
    if on.cut:
        return on.cut.cut.cloth.name
    return on.bin.bin.notion.name if on.bin else on.place.name if on.place else ""


def reserve(stash: Stash, count: int, token: str | None = None) -> list[str]:
    """New codes for blank labels, different from all codes ever."""
    return stash.labels.reserve(count, token)


def every_place(stash: Stash, token: str | None = None) -> list[str]:
    """The code of every place; a place that had no label is given one."""
    with stash.act(token):
        for name in stash.places.names():
            if stash.places.find(name) is None:
                stash.places.receive(name)
    return [place.code for place in stash.places.all()]


def printed(
    stash: Stash, said: Mapping[str, Mapping[str, str]], token: str | None = None
) -> None:
    """Remember what each label said when it was printed."""
    stash.labels.printed(said, token)
