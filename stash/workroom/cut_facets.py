"""What a cut can be sifted by among others, in the same values as the stash is found by."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from stash.cloth_kinds import weight_words
from stash.colours import nearest
from stash.errors import NotFound
from stash.model import Cut
from stash.reference import table
from stash.store import Stash

FACETS = ("fibre", "weight", "colour", "place", "washed", "held")
YES_NO = {True: "yes", False: "no"}

Facets = Mapping[str, tuple[str, ...]]
T = TypeVar("T")


def facets_of(cut: Cut, *, held: bool) -> Facets:
    """Each facet with the values of this cut; none where it is not on record."""
    cloth = cut.cloth
    colour = cloth.colours[0] if cloth.colours and cloth.colours[0].startswith("#") else None
    return {
        "fibre": tuple(share.fibre for share in cloth.fibres),
        "weight": _some(cloth.mass_gsm is not None and _weight(cloth.mass_gsm or 0.0)),
        "colour": _some(colour and nearest(colour).family),
        "place": _some(cut.place),
        "washed": (YES_NO[cut.washed],),
        "held": (YES_NO[held],),
    }


def facets_now(stash: Stash, cut: Cut) -> Facets:
    """As the record has it now; of a cut that is on record no more, as it was."""
    try:
        card = stash.cuts.card(cut.code)
    except NotFound:
        return facets_of(cut, held=False)
    return facets_of(card.cut, held=bool(card.holds))


def sifted(
    found: Sequence[T], facets: Callable[[T], Facets], chosen: Mapping[str, str]
) -> tuple[list[T], dict[str, Counter[str]]]:
    """Those with every chosen value; and of each facet how many each value would leave."""
    known = [(one, facets(one)) for one in found]

    def left(besides: str = "") -> list[tuple[T, Facets]]:
        asked = [(name, value) for name, value in chosen.items() if name != besides]
        return [(one, of) for one, of in known
                if all(value in of.get(name, ()) for name, value in asked)]

    counts = {
        name: Counter(value for _one, of in left(besides=name) for value in of[name])
        for name in FACETS
    }
    return [one for one, _of in left()], counts


def _weight(mass_gsm: float) -> str:
    """The word that the trade has for a cloth of this weight."""
    words = [one.word for one in weight_words()]
    begins = [float(row["gsm_from"]) for row in table("weight_words")][1:]
    return words[sum(mass_gsm >= gsm for gsm in begins)]


def _some(value: str | bool | None) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) and value else ()
