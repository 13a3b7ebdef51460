"""Fills a store with the Heron Loft."""

from __future__ import annotations

from stash.demo.scenario import heron_loft
from stash.demo.swatches import swatch
from stash.model import Cut
from stash.store import Stash

NAME = "The Heron Loft"


def fill(stash: Stash) -> dict[str, list[str]]:
    """Record the whole loft and say what was made: people, and codes of cuts and bins.

    Every record carries a token of its own, so filling a second time records nothing new.
    """
    loft = heron_loft()
    with stash.together():
        cuts = [
            stash.cuts.receive(cut, token=f"heron-loft-cut-{n}").code
            for n, cut in enumerate(loft.cuts)
        ]
        bins = [
            stash.bins.receive(bin, token=f"heron-loft-bin-{n}").code
            for n, bin in enumerate(loft.bins)
        ]
        for person in loft.people:
            stash.people.save(person, token=f"heron-loft-{person.name}")
        stash.settings.set("workroom", NAME, token="heron-loft-name")
    for code, cut in zip(cuts, loft.cuts, strict=True):
        _photograph(stash, code, cut, loft.weaves[cut.cloth.name])
    return {"people": [p.name for p in loft.people], "cuts": cuts, "bins": bins}


def is_another_stash(stash: Stash) -> bool:
    """Whether somebody's own record is in here: one that the demo did not fill."""
    if stash.settings.get("workroom") == NAME:
        return False
    return next(iter(stash.ledger.events()), None) is not None


def _photograph(stash: Stash, code: str, cut: Cut, weave: str) -> None:
    if stash.photos.of(code):
        return
    seed = sum(map(ord, cut.cloth.name))
    stash.photos.add(code, swatch(weave, cut.cloth.colours, seed), token=f"heron-loft-photo-{code}")
