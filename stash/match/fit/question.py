"""The question: garments, cuts, habits and weights; and how much searching it may cost."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from stash.deadline import never
from stash.lay import Budget
from stash.match.fit.ranking import Weights
from stash.match.gather import DraftedGarment, gather, of_role
from stash.match.strip_lays import Table
from stash.model import Cut, Piece, PlannedGarment, Role

Stop = Callable[[], bool]


@dataclass(frozen=True, kw_only=True)
class Question:
    """Garments to make from one cut, the cuts as they are free, and how the maker lays and chooses.

    ``held_by`` names the plans that hold part of a cut, by its code. ``own`` are the same
    garments in the same order as they are drafted for one cut, by its code, where its cloth
    stretches otherwise than the draft presumes; sharing asks it. ``unwashed_too`` also looks
    whether an unwashed cut that is too small once washed serves as it lies.
    """

    garments: tuple[DraftedGarment, ...]
    cuts: tuple[Cut, ...]
    table: Table = field(default_factory=Table)
    weights: Weights = field(default_factory=Weights)
    held_by: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    own: Mapping[str, tuple[DraftedGarment, ...]] = field(default_factory=dict)
    role: Role = Role.MAIN
    unwashed_too: bool = True

    def garments_on(self, code: str) -> tuple[DraftedGarment, ...]:
        """The garments as they are drafted for that cut."""
        return self.own.get(code, self.garments)

    @cached_property
    def alike(self) -> tuple[tuple[tuple[DraftedGarment, ...], tuple[Cut, ...]], ...]:
        """The cuts in groups for which the garments are drafted alike, each with its drafts."""
        groups: dict[tuple[int, ...], list[Cut]] = {}
        for cut in self.cuts:
            groups.setdefault(tuple(map(id, self.garments_on(cut.code))), []).append(cut)
        return tuple((self.garments_on(own[0].code), tuple(own)) for own in groups.values())

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """The pieces that must come from one cut."""
        return of_role(gather(self.garments), self.role)

    @cached_property
    def planned(self) -> tuple[PlannedGarment, ...]:
        """What is asked for, as a plan keeps it."""
        return tuple(garment.planned for garment in self.garments)

    @property
    def names(self) -> tuple[str, ...]:
        """What the garments are called, each once."""
        return tuple(dict.fromkeys(g.name for g in self.garments))


@dataclass(frozen=True, kw_only=True)
class Effort:
    """How much searching is allowed: the stop rules are made where the clock is.

    ``halt`` is the person's own stop. ``searching`` starts the clock of one stage (first
    lays of a large stash, then the strong searches together), ``each`` that of one
    strong search. ``most`` is how many contenders are searched, and how many fits are
    enough in a large stash.
    """

    halt: Stop = never
    searching: Callable[[], Stop] = lambda: never
    each: Callable[[], Stop] = lambda: never
    most: int = 10
    seed: int = 1
    workers: int = 1
    iterations: int | None = None

    def stage(self) -> Stop:
        """A stop rule for one stage, its clock starting now."""
        clock, halt = self.searching(), self.halt
        return lambda: clock() or halt()

    def budget(self, stage: Stop) -> Budget:
        """The budget of one strong search within a stage."""
        one = self.each()
        return Budget(
            seed=self.seed, workers=self.workers, iterations=self.iterations,
            stop=lambda: one() or stage(),
        )
