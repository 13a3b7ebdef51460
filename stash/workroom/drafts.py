"""Garments that can be drafted: what they ask for, and the pattern for one body."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from stash.draft.body import how, term, word
from stash.draft.catalogue import GarmentInfo, about, draft, garments
from stash.draft.chosen import key_of
from stash.draft.garment import Choice, Measure, Option
from stash.draft.knit_ease import AlongStretch, stretch_word
from stash.errors import InvalidInput, NotFound
from stash.fact import Fact, fact
from stash.model import Cloth, MeasureSet, Pattern, Person
from stash.store import Stash

__all__ = ["Choice", "GarmentInfo", "Measure", "Option", "about", "draft", "garments", "how",
           "key_of", "word"]


def drafted(
    person: Person, name: str, options: Mapping[str, object], measured_on: str = ""
) -> Pattern:
    """The pattern of one garment for one person, with what is kept of her fit.

    ``measured_on`` draws by an earlier set of measurements. InvalidInput names the days there
    are.
    """
    whose = person.as_measured(measured_on) if measured_on else person
    if whose is None:
        days = tuple(s.measured_on or "—" for s in (*person.earlier, _now(person)))
        raise InvalidInput(
            "not_measured_then", person=person.name, day=measured_on, known=days,
            field="measured_on",
        )
    fit = whose.adjustments_mm.get(about(name).name, {})
    pattern = draft(name, whose.measurements_mm, {**fit, **options}, whose.body)
    return replace(
        pattern, wearer=person.name, facts=(*pattern.facts, *said_of_measuring(whose))
    )


def is_draft(name: str) -> bool:
    """True when there is a draft of this garment, however its name is spelled."""
    try:
        about(name)
    except NotFound:
        return False
    return True


def for_cloth(name: str, options: Mapping[str, object], cloth: Cloth) -> Mapping[str, object]:
    """The options with the stretch that was measured of a cloth, where the draft takes one and
    nobody chose it.
    """
    taken = {o.name for o in about(name).options}
    measured = {
        "stretch": stretch_word(cloth.stretch_across_pct),
        "stretch_along": stretch_word(cloth.stretch_along_pct, AlongStretch),
    }
    told = {key: word for key, word in measured.items()
            if word and key in taken and options.get(key) in (None, "presumed")}
    return {**options, **told}


def for_cut(
    stash: Stash, name: str, options: Mapping[str, object], code: str
) -> Mapping[str, object]:
    """The same for the cloth of one cut; NotFound where there is none of that code."""
    return for_cloth(name, options, stash.cuts.get(code).cloth)


def _now(person: Person) -> MeasureSet:
    return MeasureSet(measured_on=person.measured_on, measurements_mm=person.measurements_mm)


def said_of_measuring(person: Person) -> tuple[Fact, ...]:
    """Which set of measurements was used, and what changed since the one before."""
    facts = [fact("measured_on", day=person.measured_on)] if person.measured_on else []
    changed = person.changed_mm()
    latest = all(s.measured_on != person.measured_on for s in person.earlier)
    if changed and latest:
        facts.append(fact(
            "measured_since", day=person.earlier[-1].measured_on or "—",
            changes=tuple(
                fact("measure_changed", measure=term(n), change_signed_mm=mm)
                for n, mm in changed.items()
            ),
        ))
    return tuple(facts)


def all_options() -> dict[str, Option]:
    """Every option of any garment, by its name and by its garment's: ``shirt.length``."""
    return {
        key: option
        for name in garments()
        for option in about(name).options
        for key in (option.name, key_of(name, option.name))
    }


def title_of(name: str) -> str:
    """What a garment is called: the title of a draft, or a pattern's own name."""
    return about(name).title if name in garments() else name


def makeable(stash: Stash) -> list[tuple[str, str]]:
    """Everything that can be made, name and title: the drafts, then her own patterns."""
    drafts = [(name, about(name).title) for name in garments()]
    return drafts + [(kept.name, kept.name) for kept in stash.patterns.all()]
