"""What was asked for: a garment for a person, so that it can be drafted again with a change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from stash.draft.catalogue import about, draft
from stash.draft.garment import Measure
from stash.match.gather import DraftedGarment
from stash.model import Pattern, Role
from stash.model.outline import Outline
from stash.pattern.length_line import altered_at_lines, long_mm


@dataclass(frozen=True, kw_only=True)
class Order:
    """A draft's name, the body it is for and the options chosen.

    ``pattern`` is set for a pattern of her own, which cannot be drafted anew. Where it has lines
    for it, it takes ``lengthen``, by how much, or ``length``, how long it is to be: mm of its
    longest piece with a line, as cut.
    """

    garment: str
    person: str = ""
    measurements_mm: Mapping[str, float] = field(default_factory=dict)
    body: str | None = None
    options: Mapping[str, object] = field(default_factory=dict)
    pattern: Pattern | None = None

    def drafted(self) -> DraftedGarment:
        """The garment; InvalidInput names a measurement or option that cannot be used.

        It is drafted once, however often it is asked for.
        """
        return self._drafted

    @cached_property
    def _drafted(self) -> DraftedGarment:
        pattern = altered_at_lines(self.pattern, self.options) if self.pattern else draft(
            self.garment, self.measurements_mm, self.options, self.body
        )
        return DraftedGarment(pattern=pattern, person=self.person, options=self.options)

    def with_options(self, **changes: object) -> Order:
        """The same order with some options changed."""
        return replace(self, options={**self.options, **changes})

    def option(self, name: str) -> object | None:
        """The value of an option, given or default; None when the draft has no such option."""
        if self.pattern:
            return None
        known = {option.name: option for option in about(self.garment).options}
        if name not in known:
            return None
        given = self.options.get(name)
        return known[name].default if given is None else known[name].read(given)

    def offers(self, name: str, word: str) -> bool:
        """True when the draft has this choice and it is not the one made."""
        if self.pattern:
            return False
        for option in about(self.garment).options:
            if option.name == name and not isinstance(option, Measure):
                return word in option.words and self.option(name) != word
        return False

    def length_mm(self) -> float | None:
        """The finished length, also where the draft works it out for itself; of a pattern of her
        own what :class:`Order` says.

        Drafting once with a known length shows how long the default one is, since the
        longest piece grows by just as much.
        """
        if self.pattern:
            return long_mm(self.drafted().pattern) or None
        measure = next((o for o in about(self.garment).options if o.name == "length"), None)
        if not isinstance(measure, Measure):
            return None
        given = self.option("length")
        if isinstance(given, int | float) and given:
            return float(given)
        known = (measure.least_mm + measure.most_mm) / 2
        grown = _longest(self.with_options(length=known).drafted().pattern)
        return known - (grown - _longest(self.drafted().pattern))


def _longest(pattern: Pattern) -> float:
    return max(Outline(p.outline_mm).length_mm for p in pattern.pieces if p.role is Role.MAIN)
