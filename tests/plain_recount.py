"""The stash counted the plain way: every cut made into a value, and looked at one by one."""

from __future__ import annotations

import re
from collections import Counter

from stash.cloth_kinds import weight_words
from stash.colours import colour_says, nearest
from stash.model import Construction
from stash.reference import table
from stash.store.conditions import FACETS, KNITTED, LENGTHS_MM, WIDTHS_MM
from stash.store.naming import key_of
from stash.store.words import of_cloth


def values_of(card):
    """{facet: the values that this cut has of it}."""
    cut, cloth = card.cut, card.cut.cloth
    colour = cloth.colours[0] if cloth.colours else None
    bands = zip(WIDTHS_MM, WIDTHS_MM[1:], strict=False)
    return {
        "fibre": {share.fibre for share in cloth.fibres}, "weight": _weight(cloth.mass_gsm),
        "colour": {nearest(colour).family} if colour else set(),
        "width": {f"{low}-{high}" for low, high in bands if low <= cut.width_mm < high},
        "place": {cut.place} - {None}, "washed": {"yes" if cut.washed else "no"},
        "held": {"yes" if card.holds else "no"},
        "length": {str(mm) for mm in LENGTHS_MM if cut.length_mm >= mm}, "suits": _suits(cloth),
    }


def answers(card, query):
    """Whether a cut is among those that a query asks for (words: of place, colour and name)."""
    values = values_of(card)
    return (card.cut.length_mm >= query.least_mm and holds_words(card, query.words)
            and all(value in values[name] for name, value in query.chosen))


def holds_words(card, words):
    """Every word begins one of what is said of the cloth, names its colour, or is in the place."""
    cloth = card.cut.cloth
    return all(
        any(part.startswith(word) for part in re.findall(r"\w+", key_of(of_cloth(cloth))))
        or bool(cloth.colours) and colour_says(cloth.colours[0], word)
        or word in key_of(card.cut.place or "")
        for word in map(key_of, words.split()))


def counts_of(cards, query):
    """{facet: {value: how many cuts it would leave, the other choices kept}}."""
    found = {}
    for name in FACETS:
        kept = tuple(one for one in query.chosen if one[0] != name)
        found[name] = Counter(
            value for card in cards
            if answers(card, type(query)(words=query.words, chosen=kept, least_mm=query.least_mm))
            for value in values_of(card)[name])
    return found


def things_in(stash):
    """{place: how many cuts and bins are said to lie there}."""
    return Counter(
        thing.place for thing in (*stash.cuts.all(), *stash.bins.all()) if thing.place)


def _weight(mass_gsm):
    begins = [float(row["gsm_from"]) for row in table("weight_words")]
    words = [one.word for one in weight_words()]
    return set() if mass_gsm is None else {
        words[max(sum(mass_gsm >= gsm for gsm in begins[1:]), 0)]}


def _suits(cloth):
    if cloth.mass_gsm is None:
        return set()
    made = {row["use"]: Construction.KNIT if row["use"] in KNITTED else Construction.WOVEN
            for row in table("cloth_weights")}
    return {row["use"] for row in table("cloth_weights")
            if float(row["best_least_gsm"]) <= cloth.mass_gsm <= float(row["best_most_gsm"])
            and cloth.construction in (made[row["use"]], None)}
