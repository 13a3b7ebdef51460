"""What was said of each cut in an answer, with its lay, as it is kept and read again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from stash.fact import Fact
from stash.model import Cut, Laid
from stash.model.exact import from_plain, to_plain
from stash.workroom.answer_lays import lays
from stash.workroom.kept_facts import facts_of, plain_of_all
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.fitting import FitAnswer

# Of one answer: as many lays as somebody looks at, and misses as somebody reads.
MOST_LINES = 24


@dataclass(frozen=True, kw_only=True)
class KeptLine:
    """One cut of a kept answer: ``kind`` of its verdict, what was told of it, its lay if any.

    ``cut`` is as it was then. ``what`` comes out of it, where that is not all that was asked for.
    """

    key: str
    cut: Cut
    kind: str
    told: tuple[Fact, ...] = ()
    laid: Laid | None = None
    what: tuple[str, ...] = ()

    @property
    def code(self) -> str:
        """The code of its label."""
        return self.cut.code

    @property
    def name(self) -> str:
        """What its cloth is called."""
        return self.cut.cloth.name


def lines_of(answer: FitAnswer | MakingAnswer) -> Iterator[KeptLine]:
    """Every cut that was judged, then the lays after a change and of the other cloth."""
    named = {one.key: one for one in lays(answer)}
    if not isinstance(answer, MakingAnswer):
        for c in answer.fit.candidates[:MOST_LINES]:
            yield KeptLine(
                key=c.cut.code, cut=c.cut, kind=c.verdict.kind,
                told=(c.verdict.told, *c.suitability.soft, *c.suitability.notes, *c.hangs_on),
                laid=c.laid,
            )
        named = {key: one for key, one in named.items() if key not in
                 {c.cut.code for c in answer.fit.candidates}}
    for key, one in named.items():
        yield KeptLine(
            key=key, cut=one.laid.cut, kind="change" if one.changes else "fits",
            told=(*one.changes, *one.told), laid=one.laid, what=one.what,
        )


def line_plain(line: KeptLine) -> dict[str, Any]:
    """As it is written; the cut of a lay stands in the lay."""
    return {
        "key": line.key, "kind": line.kind, "told": plain_of_all(line.told),
        "cut": None if line.laid else to_plain(line.cut), "laid": to_plain(line.laid),
        "what": list(line.what),
    }


def line_read(plain: dict[str, Any]) -> KeptLine:
    """The line that :func:`line_plain` wrote."""
    laid = from_plain(Laid, plain["laid"]) if plain["laid"] else None
    return KeptLine(
        key=plain["key"], kind=plain["kind"], told=facts_of(plain["told"]), laid=laid,
        cut=laid.cut if laid else from_plain(Cut, plain["cut"]), what=tuple(plain["what"]),
    )
