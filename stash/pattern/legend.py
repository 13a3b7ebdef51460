"""What every piece says of itself beside its name: garment, wearer, day, and allowances."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from stash.fact import Term, fact
from stash.model import Pattern, Piece
from stash.sentences import Reader, say

# What a sewist calls an edge whose name only tells it apart; and the names of drafts' edges that
# no other table holds, so that each is said in every language.
EDGE_CALLED = {"side 2": "other side", "neck": "neckline", "notch": "upper edge of the revere"}
EDGES_BESIDE = (
    "back crotch", "back inside leg", "bag", "edge", "foot", "free edge", "front crotch",
    "front inside leg", "opening", "other end", "other long", "point", "sides", "upper",
)


def edge_term(edge: str) -> Term:
    """An edge as it is said."""
    return Term(EDGE_CALLED.get(edge, edge))


@dataclass(frozen=True, kw_only=True)
class Legend:
    """Of which garment the pieces are, for whom, and when they were drawn (ISO day)."""

    garment: str = ""
    wearer: str = ""
    drawn_on: str = ""

    def line(self) -> str:
        """What is known, in one line; empty when nothing is."""
        return " · ".join(said for said in (self.garment, self.wearer, self.drawn_on) if said)


def legend_of(pattern: Pattern, title: str, drawn_on: str = "") -> Legend:
    """The legend of a pattern under its title."""
    return Legend(garment=title or pattern.garment, wearer=pattern.wearer, drawn_on=drawn_on)


def allowance_words(piece: Piece, reader: Reader) -> str:
    """"seams 15 mm, hem 40 mm": the usual allowance first, then the edges that differ.

    A strip that is measured as it is cut has its seams counted in.
    """
    allowed = dict(piece.allowances_mm)
    if not allowed:
        return ""
    counts = Counter(mm for mm in allowed.values() if mm)
    if not counts:
        return say(fact("cut_size"), reader)
    usual = min(counts, key=lambda mm: (-counts[mm], mm))
    others = [
        say(fact("edge_allowed", edge=edge_term(edge), edge_small_mm=mm) if mm
            else fact("edge_not_allowed", edge=edge_term(edge)), reader)
        for edge, mm in allowed.items() if abs(mm - usual) > 0.1
    ]
    return ", ".join([say(fact("seams_allowed", seam_small_mm=usual), reader), *others])
