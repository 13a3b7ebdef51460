"""An alteration as it is typed, "move dart front waist to side 8cm", and written down again.

Pieces and edges are called as the pattern calls them. A length after an edge is measured from
its upper end, or from its inner end where it lies across; without one its middle is meant.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from stash.draft.altering.on_paper import OnPaper
from stash.draft.altering.steps import (
    AddFacing,
    Alteration,
    CutFold,
    CutPanel,
    GatherDart,
    MoveDart,
    SlashAndSpread,
    Where,
)
from stash.draft.cutting_line import FOLD
from stash.errors import InvalidInput
from stash.model import Pattern, Point
from stash.quantity import Quantity, read_length

EXAMPLES = (
    "move dart front waist to side 8cm",
    "gather dart front waist",
    "turn dart front waist into flare at hem",
    "cut panel front from dart waist to hem",
    "add seam back from side 20cm to centre back 18cm",
    "cut panel front along fold",
    "slash and spread front from waist to hem, 3 cuts, 2cm each",
    "add facing front waist 5cm",
)
_LENGTH = r"\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?\s*(?:mm|cm|m|in|inch|inches|\")?"


def parse_alteration(text: str, pattern: Pattern) -> Alteration:
    """The alteration that the words mean on this pattern; InvalidInput says what is wrong."""
    said = _Said(" ".join(text.split()), pattern)
    for verb, reader in _READERS:
        if said.takes(verb):
            step = reader(said)
            if said.rest:
                raise said.refused()
            return step
    raise said.refused()


class _Said:
    """The words still to be read, taken from the left."""

    def __init__(self, text: str, pattern: Pattern):
        self.text, self.rest, self.pattern = text, text.lower().strip(), pattern

    def takes(self, word: str) -> bool:
        """True when the next words are these; they are then done with."""
        if self.rest == word or self.rest.startswith((f"{word} ", f"{word},")):
            self.rest = self.rest[len(word):].lstrip(" ,")
            return True
        return False

    def needs(self, word: str) -> None:
        """These words must come next."""
        if not self.takes(word):
            raise self.refused()

    def refused(self) -> InvalidInput:
        """What is said when the words make no alteration."""
        return InvalidInput(
            "not_an_alteration", typed=self.text[:80], examples=EXAMPLES, field="step"
        )

    def piece(self) -> OnPaper:
        """The piece that is named next."""
        pieces = sorted(self.pattern.pieces, key=lambda p: -len(p.name))
        for piece in pieces:
            if self.takes(piece.name.lower()):
                return OnPaper.of(piece)
        known = tuple(p.name for p in self.pattern.pieces)
        raise InvalidInput("no_piece_called", typed=self.rest[:40] or self.text[:40],
                           known=known, field="step")

    def edge(self, paper: OnPaper) -> str:
        """The edge of a piece that is named next."""
        for edge in sorted(paper.edges, key=lambda e: -len(e.name)):
            if self.takes(edge.name.lower()):
                return edge.name
        known = tuple(e.name for e in paper.edges if e.name != FOLD)
        raise InvalidInput("piece_has_no_edge", piece=paper.piece.name, typed=self.rest[:40],
                           known=known, field="step")

    def length(self) -> float | None:
        """The length that is written next, mm."""
        found = re.match(rf"({_LENGTH})(?=[ ,]|$)", self.rest)
        if not found:
            return None
        self.rest = self.rest[found.end():].lstrip(" ,")
        return read_length(found.group(1), Quantity.PATTERN, field="step")

    def needed_length(self) -> float:
        """The length that must come next, mm."""
        mm = self.length()
        if mm is None:
            raise self.refused()
        return mm

    def number(self) -> int | None:
        """The bare number that is written next."""
        found = re.match(r"(\d{1,2})(?=[ ,]|$)", self.rest)
        if not found:
            return None
        self.rest = self.rest[found.end():].lstrip(" ,")
        return int(found.group(1))

    def dart(self, paper: OnPaper) -> Where:
        """An edge and, where it has several darts, which of them."""
        edge = self.edge(paper)
        return Where(edge=edge, dart=self.number(), at_dart=True)

    def place(self, paper: OnPaper) -> Where:
        """A dart of an edge, or a place on one."""
        if self.takes("dart"):
            return self.dart(paper)
        edge = self.edge(paper)
        return Where(edge=edge, mm=self.length())


def _move_dart(said: _Said) -> Alteration:
    paper = said.piece()
    dart = said.dart(paper)
    said.needs("to")
    edge = said.edge(paper)
    return MoveDart(piece=paper.piece.name, dart=dart, to=Where(edge=edge, mm=said.length()))


def _turn_dart(said: _Said) -> Alteration:
    paper = said.piece()
    dart = said.dart(paper)
    said.needs("into")
    if said.takes("gathers"):
        return GatherDart(piece=paper.piece.name, dart=dart)
    if said.takes("seam"):
        said.needs("to")
        return CutPanel(piece=paper.piece.name, start=dart, end=said.place(paper))
    said.needs("flare")
    said.needs("at")
    to = Where(edge=said.edge(paper), mm=said.length())
    return MoveDart(piece=paper.piece.name, dart=dart, to=to, as_flare=True)


def _gather(said: _Said) -> Alteration:
    paper = said.piece()
    return GatherDart(piece=paper.piece.name, dart=said.dart(paper))


def _cut(said: _Said) -> Alteration:
    paper = said.piece()
    if said.takes("along fold"):
        return CutFold(piece=paper.piece.name, allowance_mm=_allowance(said))
    said.needs("from")
    start = said.place(paper)
    via = tuple(_via(said))
    said.needs("to")
    end = said.place(paper)
    return CutPanel(piece=paper.piece.name, start=start, end=end, via_mm=via,
                    allowance_mm=_allowance(said))


def _via(said: _Said) -> list[Point]:
    """Points on the way: "through 30cm down 8cm across", from the top and the fold or edge."""
    found = []
    while said.takes("through"):
        down = said.needed_length()
        said.needs("down")
        across = said.needed_length()
        said.needs("across")
        found.append((down, across))
    return found


def _allowance(said: _Said) -> float | None:
    return said.needed_length() if said.takes("allowance") else None


def _spread(said: _Said) -> Alteration:
    paper = said.piece()
    said.needs("from")
    hinge = said.edge(paper)
    said.needs("to")
    edge = said.edge(paper)
    cuts = said.number()
    if cuts is None or not (said.takes("cuts") or said.takes("cut")):
        raise said.refused()
    amount = said.needed_length()
    said.takes("each")
    return SlashAndSpread(piece=paper.piece.name, hinge=hinge, edge=edge, cuts=cuts,
                          amount_mm=amount, evenly=said.takes("at both edges"))


def _facing(said: _Said) -> Alteration:
    paper = said.piece()
    edge = said.edge(paper)
    return AddFacing(piece=paper.piece.name, edge=edge, width_mm=said.needed_length())


_READERS = (
    ("move dart", _move_dart), ("turn dart", _turn_dart), ("gather dart", _gather),
    ("gather", _gather), ("cut panel", _cut), ("add seam", _cut),
    ("slash and spread", _spread), ("add facing", _facing),
)


def in_words(step: Alteration) -> str:
    """The words of an alteration, lengths in mm: read again they mean the same."""
    match step:
        case MoveDart(as_flare=True):
            return f"turn dart {step.piece} {_dart(step.dart)} into flare at {_place(step.to)}"
        case MoveDart():
            return f"move dart {step.piece} {_dart(step.dart)} to {_place(step.to)}"
        case GatherDart():
            return f"gather dart {step.piece} {_dart(step.dart)}"
        case CutFold():
            return f"cut panel {step.piece} along fold{_allowed(step.allowance_mm)}"
        case CutPanel():
            via = "".join(f" through {_mm(x)} down {_mm(y)} across" for x, y in step.via_mm)
            ends = f"from {_place(step.start)}{via} to {_place(step.end)}"
            return f"cut panel {step.piece} {ends}{_allowed(step.allowance_mm)}"
        case SlashAndSpread():
            both = " at both edges" if step.evenly else ""
            cuts = f"{step.cuts} cuts, {_mm(step.amount_mm)} each{both}"
            return f"slash and spread {step.piece} from {step.hinge} to {step.edge}, {cuts}"
        case AddFacing():
            return f"add facing {step.piece} {step.edge} {_mm(step.width_mm)}"


def _dart(where: Where) -> str:
    return where.edge if where.dart is None else f"{where.edge} {where.dart}"


def _place(where: Where) -> str:
    if where.at_dart:
        return f"dart {_dart(where)}"
    return where.edge if where.mm is None else f"{where.edge} {_mm(where.mm)}"


def _allowed(mm: float | None) -> str:
    return "" if mm is None else f" allowance {_mm(mm)}"


def _mm(mm: float) -> str:
    return f"{round(mm, 3):g}mm"


def names_of(pattern: Pattern) -> Sequence[tuple[str, str]]:
    """Every (piece, edge) that can be named, the folds left out."""
    return [
        (piece.name, edge.name) for piece in pattern.pieces
        for edge in OnPaper.of(piece).edges if edge.name != FOLD
    ]
