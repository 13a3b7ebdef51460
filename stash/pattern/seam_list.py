"""What is sewn to what: how long each seam is, what is eased into it, and which notches meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import dist

from stash.fact import Term, fact
from stash.model import Joined, Part, Pattern, Piece, SewnEdge
from stash.pattern.legend import edge_term
from stash.sentences import Reader, say
from stash.sentences.quantities import written
from stash.sentences.saying import piece_named
from stash.sentences.translations import translated

EASE_MM = 1.0  # what is eased by less is sewn as it lies
BANDS = {Part.WAISTBAND, Part.BAND, Part.BINDING, Part.BELT, Part.STRAP}
END_MM = 1.0
LONG_EDGE = "long edge"
GATHERED = 1.2  # an edge so much longer is gathered or pleated: chosen here


@dataclass(frozen=True)
class SeamLine:
    """One seam, in the reader's words: the two edges, its length, and how they meet."""

    edges: str
    long: str
    how: str

    @property
    def line(self) -> str:
        """All of it in one line."""
        return f"{self.edges}: {', '.join(said for said in (self.long, self.how) if said)}"


def seam_lines(pattern: Pattern, reader: Reader) -> tuple[SeamLine, ...]:
    """The seams of a pattern, as its draft tells them; none where none are known."""
    pieces = {p.name: p for p in pattern.pieces}
    return tuple(_line(join, pieces, reader) for join in pattern.joins)


def edge_said(piece: Piece | None, edge: str, reader: Reader) -> str:
    """What a sewist calls an edge: a rectangle's second side is its other one, a band has long
    edges and short ends, and what a revere's notch is cut into is its upper edge.
    """
    said = str(edge_term(edge))
    if piece and piece.part in BANDS and edge in ("side", "side 2", "top", "bottom"):
        longest = max(_long(e) for e in piece.edges)
        whole = next((_long(e) for e in piece.edges if e.name == edge), 0.0)
        said = LONG_EDGE if whole > 0.7 * longest else "end"
    return translated(said, reader.language)


def _long(edge: SewnEdge) -> float:
    return sum(dist(a, b) for a, b in zip(edge.path_mm, edge.path_mm[1:], strict=False))


def _line(join: Joined, pieces: Mapping[str, Piece], reader: Reader) -> SeamLine:
    shorter, longer = sorted((join.a_mm, join.b_mm))
    lengths = [written("measure_mm", shorter, reader)]
    if longer - shorter >= EASE_MM:
        lengths.insert(0, written("measure_mm", longer, reader))
    how = [said for said in (_eased(join, pieces, reader), _notches(join, pieces, reader)) if said]
    return SeamLine(_edges(join, pieces, reader), " → ".join(lengths), ", ".join(how))


def _edges(join: Joined, pieces: Mapping[str, Piece], reader: Reader) -> str:
    """"back, side – front, side"; an edge sewn to its own like on the other piece is said once."""
    one, other = (
        f"{piece_named(piece, reader)}, {edge_said(pieces.get(piece), edge, reader)}"
        for piece, edge in (join.a, join.b)
    )
    return one if join.a == join.b else f"{one} – {other}"


def _eased(join: Joined, pieces: Mapping[str, Piece], reader: Reader) -> str:
    """What is done with the longer edge, and by how much."""
    over = abs(join.ease_mm)
    if over < EASE_MM:
        return ""
    longer, shorter = (join.a, join.b) if join.ease_mm > 0 else (join.b, join.a)
    short = pieces.get(shorter[0])
    if short and short.part is Part.BINDING:
        kind, whose = "seam_stretched", shorter[0]
    elif max(join.a_mm, join.b_mm) > GATHERED * min(join.a_mm, join.b_mm):
        kind, whose = "seam_drawn_up", longer[0]
    else:
        kind, whose = "seam_eased", longer[0]
    return say(fact(kind, part=Term(whose), ease_small_mm=over), reader)


def _notches(join: Joined, pieces: Mapping[str, Piece], reader: Reader) -> str:
    """Which notches meet: single, double, or a back's double ones and a front's single ones."""
    a, b = (_edge(pieces.get(name), edge) for name, edge in (join.a, join.b))
    if a is None or b is None:
        return ""
    one, two = _along(a), _along(b)
    if b.double_notches_mm and a.double_notches_mm:
        kind = "notches_double"
    elif one and two:
        kind = "notches_single"
    elif (a.double_notches_mm and two) or (one and b.double_notches_mm):
        kind = "notches_double_to_single"
    else:
        return ""
    return say(fact(kind), reader)


def _along(edge: SewnEdge) -> tuple[float, ...]:
    """Single notches along an edge; one at its very end marks a centre or a seam, no meeting."""
    whole = _long(edge)
    return tuple(mm for mm in edge.notches_mm if END_MM < mm < whole - END_MM)


def _edge(piece: Piece | None, name: str) -> SewnEdge | None:
    return next((e for e in piece.edges if e.name == name), None) if piece else None
