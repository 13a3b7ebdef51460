"""Laying pieces that came in a file on a cloth given by its measures: no record needed."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.deadline import Deadline
from stash.errors import InvalidInput
from stash.lay import (
    Budget,
    LayAnswer,
    Layers,
    LayTask,
    MatchingCost,
    Position,
    SpreadAnswer,
    compared,
    draw,
    matching_cost,
    positions_table,
    shortest,
    solve,
)
from stash.lay.json_in import outline_from_json, pieces_from_json
from stash.model import Outline, Repeat, Spread

__all__ = ["LayAnswer", "LaidOut", "Layers", "MatchingCost"]

MATCHING_SHARE = 0.25
"""Of the seconds for a fixed cut, what is kept for saying what matching the print costs."""

COMPARING_SHARE = 0.25
"""Where the spread is left to choose, of the seconds, what is kept for comparing them all."""


@dataclass(frozen=True, kw_only=True)
class GivenCloth:
    """The cloth by its measures; ``outline`` is plain JSON of an irregular cut.

    Without a length and an outline the shortest length is looked for.
    """

    width_mm: float | None = None
    length_mm: float | None = None
    outline: object = None
    one_way: bool = False
    spread: Spread | None = Spread.OPEN
    repeat: Repeat | None = None


@dataclass(frozen=True, kw_only=True)
class Margins:
    """Room between pieces and along the edges, and how far off the grain they may lie."""

    clearance_mm: float = 0.0
    edge_mm: float = 0.0
    off_grain_deg: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Searching:
    """How long and how hard to search."""

    seconds: float = 5.0
    seed: int = 1
    iterations: int | None = None
    workers: int = 1

    def budget(self, share: float = 1.0) -> Budget:
        """A share of the time, beginning now."""
        return Budget(
            seed=self.seed, iterations=self.iterations, workers=self.workers,
            stop=Deadline.after(share * self.seconds),
        )


@dataclass(frozen=True, kw_only=True)
class LaidOut:
    """The answer, and on a repeat what matching costs."""

    task: LayTask
    answer: LayAnswer
    matching: MatchingCost | None = None
    spreads: tuple[SpreadAnswer, ...] = ()

    @property
    def positions(self) -> tuple[Position, ...]:
        """Where each piece lies, by a tape on the cloth; none without a lay."""
        lay = self.answer.lay
        return () if lay is None else positions_table(self.task, lay)

    def svg(self, note: str = "") -> str:
        """The lay drawn to scale; InvalidInput when there is none."""
        if self.answer.lay is None:
            raise InvalidInput("no_lay_to_draw", field="svg")
        return draw(self.task, self.answer.lay, note=note)


def lay_out(
    pieces: object, turns_deg: tuple[float, ...], cloth: GivenCloth, margins: Margins,
    searching: Searching,
) -> LaidOut:
    """Lay the pieces (plain JSON); ``turns_deg``, when given, are what every piece may take.

    A spread that is left to choose is chosen from all of them, each with its length.
    """
    task = _task(pieces, turns_deg, cloth, margins)
    if task.spread is not None:
        return _laid_out(task, searching)
    spreads = compared(task, searching.budget(COMPARING_SHARE))
    return replace(_laid_out(task, searching, 1 - COMPARING_SHARE), spreads=spreads)


def _laid_out(task: LayTask, searching: Searching, share: float = 1.0) -> LaidOut:
    if task.repeat is None:
        find = shortest if task.cloth is None else solve
        return LaidOut(task=task, answer=find(task, searching.budget(share)))
    if task.cloth is None:  # the matched half of the comparison is the answer itself
        matching = matching_cost(task, searching.budget(share))
        return LaidOut(task=task, answer=matching.matched, matching=matching)
    answer = solve(task, searching.budget(share * (1 - MATCHING_SHARE)))
    matching = matching_cost(task, searching.budget(share * MATCHING_SHARE))
    return LaidOut(task=task, answer=answer, matching=matching)


def _task(
    plain: object, turns_deg: tuple[float, ...], cloth: GivenCloth, margins: Margins
) -> LayTask:
    pieces = pieces_from_json(plain)
    if turns_deg:
        pieces = tuple(replace(piece, turns_deg=turns_deg) for piece in pieces)
    if cloth.repeat and not any(piece.match_points_mm for piece in pieces):
        pieces = tuple(replace(piece, match_points_mm=((0.0, 0.0),)) for piece in pieces)
    if cloth.outline is not None and (cloth.width_mm or cloth.length_mm):
        raise InvalidInput("outline_or_width", field="outline")
    if cloth.outline is None and cloth.width_mm is None:
        raise InvalidInput("cloth_wanted", field="width")
    outline = outline_from_json(cloth.outline) if cloth.outline is not None else None
    if cloth.length_mm is not None and cloth.width_mm is not None:
        outline = Outline.rectangle(cloth.length_mm, cloth.width_mm)
    return LayTask(
        pieces=pieces, cloth=outline, width_mm=cloth.width_mm, one_way=cloth.one_way,
        spread=cloth.spread, repeat=cloth.repeat, clearance_mm=margins.clearance_mm,
        edge_mm=margins.edge_mm, off_grain_deg=margins.off_grain_deg,
    )
