"""Alterations one after another: pieces, joins, seams and thread of the pattern they make."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.draft.altering.agreed import Agreed
from stash.draft.altering.doing import Outcome, done
from stash.draft.altering.joins import brought_along, new_join, snipped
from stash.draft.altering.on_paper import OnPaper, whole_mm
from stash.draft.altering.step_words import in_words, parse_alteration
from stash.draft.soundness import broken
from stash.errors import InvalidInput
from stash.fact import Fact
from stash.model import MarkKind, NotionKind, Pattern, Piece, Seam
from stash.notions.thread import thread_needs

RAW = ", raw edges"


@dataclass(frozen=True, kw_only=True)
class StepDone:
    """One alteration: its words, what it did, and what was proved to agree."""

    words: str
    said: Fact
    agreed: tuple[Agreed, ...]


@dataclass(frozen=True, kw_only=True)
class Altered:
    """The pattern that several alterations made, and each of them."""

    pattern: Pattern
    steps: tuple[StepDone, ...]


def alter(pattern: Pattern, steps: Sequence[str]) -> Altered:
    """The pattern after each step in turn; InvalidInput says which cannot be made, and why."""
    made: list[StepDone] = []
    for text in steps:
        step = parse_alteration(text, pattern)
        paper = OnPaper.of(next(p for p in pattern.pieces if p.name == step.piece))
        outcome = done(paper, step)
        pattern = _with(pattern, paper, outcome)
        made.append(StepDone(words=in_words(step), said=outcome.said, agreed=outcome.agreed))
    return Altered(pattern=pattern, steps=tuple(made))


def _with(pattern: Pattern, was: OnPaper, outcome: Outcome) -> Pattern:
    """The pattern with the outcome in the place of the piece."""
    others = {p.name: OnPaper.of(p) for p in pattern.pieces if p.name != was.piece.name}
    joins, snips = brought_along(pattern.joins, was, outcome.parts, others)
    pieces: dict[str, Piece] = {}
    for piece in pattern.pieces:
        if piece.name == was.piece.name:
            pieces |= {p.piece.name: p.made() for p in (*outcome.parts, *outcome.beside)}
        else:
            pieces[piece.name] = piece
    if len(pieces) < len(pattern.pieces) - 1 + len(outcome.parts) + len(outcome.beside):
        raise InvalidInput("same_piece_name", field="step")
    for snip in snips:
        pieces[snip.piece] = snipped(OnPaper.of(pieces[snip.piece]), snip).made()
    new = new_join(outcome.parts, outcome.beside, outcome.seam)
    changed = replace(
        pattern, pieces=tuple(pieces.values()), joins=(*joins, new) if new else joins,
    )
    if faults := broken(changed):
        raise InvalidInput("altered_piece_crosses", piece=faults[0], field="step")
    return _sewn(changed, was, outcome)


def _sewn(pattern: Pattern, was: OnPaper, outcome: Outcome) -> Pattern:
    """The pattern with the new seam among its seams, and thread for it."""
    if not outcome.seam or not pattern.seams:
        return pattern
    one = outcome.beside[0] if outcome.beside else outcome.parts[0]
    both_sides = was.on_fold and (one.on_fold or len(outcome.parts) > 1)
    times = was.piece.quantity * (2 if both_sides else 1)
    mm = whole_mm(one.edge(outcome.seam)) * times
    name = f"{one.piece.name}, {outcome.seam}"
    finish = next((s.stitch for s in pattern.seams if s.name.endswith(RAW)), "")
    more = [Seam(name, mm)] + ([Seam(name + RAW, 2 * mm, finish)] if finish else [])
    seams = (*pattern.seams, *more)
    holes = sum(
        p.quantity * sum(m.kind is MarkKind.BUTTONHOLE for m in p.marks) for p in pattern.pieces
    )
    notions = [n for n in pattern.notions if n.kind is not NotionKind.THREAD]
    thread = thread_needs(seams, buttonholes=holes) if len(notions) < len(pattern.notions) else ()
    return replace(pattern, seams=seams, notions=(*notions, *thread))
