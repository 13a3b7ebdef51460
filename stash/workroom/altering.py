"""Darts moved and panels cut: a draft or a pattern of her own altered, and kept as her own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stash.draft.altering.agreed import Agreed
from stash.draft.altering.alterations import Altered, StepDone, alter
from stash.draft.altering.edge_darts import darts_of
from stash.draft.altering.on_paper import OnPaper
from stash.draft.altering.step_words import EXAMPLES, names_of
from stash.draft.catalogue import about, garments
from stash.errors import InvalidInput
from stash.ledger import Event
from stash.model import Pattern, Person, Recipe
from stash.pattern.legend import edge_term
from stash.store import Stash
from stash.store.patterns import KeptPattern
from stash.workroom.drafts import drafted, is_draft

__all__ = ["EXAMPLES", "Agreed", "Altered", "Base", "StepDone", "edge_term", "edges_of"]


@dataclass(frozen=True, kw_only=True)
class Base:
    """What is altered: a draft's name or a pattern's, for whom and with which options."""

    name: str
    person: Person | None = None
    options: Mapping[str, object] | None = None


def before(stash: Stash, base: Base) -> Pattern:
    """The pattern as it is before anything is altered."""
    return _begun(stash, base)[0]


def altered(stash: Stash, base: Base, steps: Sequence[str]) -> Altered:
    """The pattern with each step made in turn, and the recipe it can be drawn again by."""
    pattern, recipe = _begun(stash, base)
    made = alter(pattern, steps)
    words = (*recipe.steps, *(s.words for s in made.steps))
    whole = replace(made.pattern, facts=(), recipe=replace(recipe, steps=words))
    return replace(made, pattern=whole)


def _begun(stash: Stash, base: Base) -> tuple[Pattern, Recipe]:
    """The pattern to begin with, and how it came about so far."""
    options = dict(base.options or {})
    if is_draft(base.name):
        name = about(base.name).name
        person = base.person or _the_one(stash, name)
        return drafted(person, name, options), Recipe(base=name, steps=(), options=options)
    kept = stash.patterns.kept(base.name)
    if base.person and can_be_drawn_again(kept.pattern):
        kept = replace(kept, pattern=drawn_again(kept.pattern, base.person))
    if kept.pattern.recipe:
        return kept.pattern, kept.pattern.recipe
    return kept.pattern, Recipe(base=kept.name, steps=(), version=kept.version)


def _the_one(stash: Stash, name: str) -> Person:
    """The one person on record, or nobody for what needs no body."""
    if not about(name).measurements:
        return Person(name="")
    known = stash.people.all()
    if len(known) != 1:
        names = tuple(p.name for p in known[:8])
        raise InvalidInput("say_for_whom" if known else "nobody_on_record", people=names,
                           field="for")
    return known[0]


def keep(
    stash: Stash, made: Altered, name: str, token: str | None = None
) -> tuple[Event, KeptPattern]:
    """Keep an altered pattern as her own, a new version where there is one of this name."""
    if not made.steps:
        raise InvalidInput("alterations_wanted", example=EXAMPLES[0], field="step")
    if not name.strip():
        raise InvalidInput("name_for_altered", field="name")
    if is_draft(name):
        raise InvalidInput("name_is_a_draft", name=name, field="name")
    recipe = made.pattern.recipe
    source = f"altered from {recipe.base}" if recipe else "altered"
    pattern = replace(made.pattern, garment=" ".join(name.split()))
    event = stash.patterns.save(name, pattern, token, source=source)
    return event, stash.patterns.kept(name)


def can_be_drawn_again(pattern: Pattern) -> bool:
    """True for what began as a draft: it can be drawn for another body."""
    return pattern.recipe is not None and pattern.recipe.base in garments()


def drawn_again(pattern: Pattern, person: Person) -> Pattern:
    """An altered draft drawn for this person's measurements, with the same alterations."""
    recipe = pattern.recipe
    if recipe is None or not can_be_drawn_again(pattern):
        return pattern
    fresh = drafted(person, recipe.base, recipe.options)
    made = alter(fresh, recipe.steps).pattern
    return replace(made, garment=pattern.garment, recipe=recipe)


def keep_again(
    stash: Stash, name: str, person: Person, token: str | None = None
) -> tuple[Event, KeptPattern]:
    """An altered draft drawn for somebody else, kept under its name and theirs."""
    kept = stash.patterns.kept(name)
    if not can_be_drawn_again(kept.pattern):
        raise InvalidInput("not_drawn_again", name=kept.name, field="person")
    own = f"{kept.name}, {person.name}"
    pattern = replace(drawn_again(kept.pattern, person), garment=own, facts=())
    event = stash.patterns.save(own, pattern, token, source=kept.source)
    return event, stash.patterns.kept(own)


def edges_of(pattern: Pattern) -> list[tuple[str, str]]:
    """Every (piece, edge) that can be named."""
    return list(names_of(pattern))


def darts_in(pattern: Pattern) -> list[tuple[str, str, int, int]]:
    """Every dart: piece, edge, its number there, and how many there are."""
    found = []
    for piece in pattern.pieces:
        darts = darts_of(OnPaper.of(piece))
        for edge in dict.fromkeys(d.edge for d in darts):
            count = sum(d.edge == edge for d in darts)
            found += [(piece.name, edge, n + 1, count) for n in range(count)]
    return found


def folded(pattern: Pattern) -> list[str]:
    """The pieces that are cut on the fold."""
    return [p.name for p in pattern.pieces if OnPaper.of(p).on_fold]
