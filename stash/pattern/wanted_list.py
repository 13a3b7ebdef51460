"""What a pattern takes besides its pieces: the cloth it is drawn for, and each notion."""

from __future__ import annotations

from stash.fact import Term, fact
from stash.model import Construction, Need, NotionKind, Pattern
from stash.model.amounts import AMOUNT, SIZE
from stash.sentences import Reader, say
from stash.sentences.quantities import shown, written


def wanted_lines(pattern: Pattern, reader: Reader) -> tuple[str, ...]:
    """A line for the cloth, then one for each notion: what, how much, of what size and why."""
    return (_cloth(pattern, reader), *(_notion(need, reader) for need in pattern.notions))


def _cloth(pattern: Pattern, reader: Reader) -> str:
    wants = pattern.wants
    least, most = wants.mass_best_gsm
    if wants.stretch_across_pct:
        return say(fact(
            "takes_knit", stretch_pct=wants.stretch_across_pct, least_gsm=least, most_gsm=most,
        ), reader)
    knit = Construction.WOVEN not in wants.constructions
    return say(fact("takes_any_knit" if knit else "takes_woven", least_gsm=least, most_gsm=most),
               reader)


def _notion(need: Need, reader: Reader) -> str:
    if need.count is not None:
        amount = f"{need.count:g}"
    elif need.kind is NotionKind.THREAD:
        amount = written("thread_mm", need.length_mm or 0.0, reader)
    else:
        amount = shown(need.length_mm or 0.0, AMOUNT[need.kind], reader)
    sized = shown(need.size_mm[1], SIZE[need.kind], reader) if need.size_mm else ""
    return say(fact(
        "takes_notion_sized" if sized else "takes_notion", thing=Term(need.kind.value),
        amount=amount, sized=sized, place=need.reason,
    ), reader)
