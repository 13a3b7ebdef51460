"""What the printed pages say of a draft besides its pieces and seams."""

from __future__ import annotations

from collections.abc import Iterable

from stash.draft.body import word
from stash.draft.catalogue import about, garments
from stash.draft.sewing_order import order_of_sewing
from stash.fact import Fact, fact
from stash.model import Pattern
from stash.pattern.sewing_page import Sewing
from stash.pattern.wanted_list import wanted_lines
from stash.sentences import Reader, say
from stash.sentences.quantities import written
from stash.sentences.translations import translated


def sewing_words(pattern: Pattern, reader: Reader) -> Sewing:
    """For whom it is drawn and what to beware of, what it takes, and the order of sewing."""
    told = [say(one, reader) for one in (*_drawn_for(pattern, reader), *pattern.facts)]
    told += [translated(one, reader.language) for one in pattern.cautions]
    steps = [say(step, reader) for step in order_of_sewing(pattern)]
    wanted = wanted_lines(pattern, reader) if pattern.notions or steps else ()
    return Sewing(told=told, wanted=wanted, steps=steps)


def _drawn_for(pattern: Pattern, reader: Reader) -> Iterable[Fact]:
    """The measurements that the draft asked for: those that were taken, those of a table."""
    base = pattern.recipe.base if pattern.recipe else pattern.garment
    if base not in garments():
        return
    info = about(base)
    asked = [
        next((n for n in either.split("|") if n in pattern.measurements_mm), "")
        for either in info.measurements]
    known = [n for n in (*asked, *info.estimates) if n in pattern.measurements_mm]
    taken = [n for n in dict.fromkeys(known) if n not in pattern.estimated]
    guessed = [n for n in dict.fromkeys(known) if n in pattern.estimated]
    for kind, names in (("drawn_for", taken), ("drawn_by_table", guessed)):
        if names:
            said = ", ".join(
                f"{translated(word(n), reader.language)} "
                f"{written('measure_mm', pattern.measurements_mm[n], reader)}" for n in names)
            yield fact(kind, measures=said)
