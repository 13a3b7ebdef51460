"""Answers found again: what was asked, when, for which plan, and whether that still holds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from stash.errors import NotFound
from stash.fact import Fact
from stash.model import Laid
from stash.model.exact import from_plain, to_plain
from stash.sentences import Reader, say
from stash.store import Stash
from stash.store.naming import key_of
from stash.workroom.kept_facts import fact_of, plain_of
from stash.workroom.kept_lines import KeptLine, line_plain, line_read, lines_of
from stash.workroom.kept_lists import list_plain, list_read
from stash.workroom.questions.assignment import MakingAnswer
from stash.workroom.questions.farthest import FartherAnswer
from stash.workroom.questions.fitting import FitAnswer
from stash.workroom.questions.shopping import ShopAnswer
from stash.workroom.questions.since_asked import since_asked

__all__ = ["KeptLine"]

AnyAnswer = FitAnswer | MakingAnswer | FartherAnswer | ShopAnswer
FIT, FAR, SHOP = "fit", "far", "shop"


@dataclass(frozen=True, kw_only=True)
class AskedFor:
    """What was asked: in words, as the query that asks it again, and for which plans.

    ``about`` says it in any language; without it the title stands, as the name of a plan does.
    """

    title: str
    about: Fact | None = None
    query: str = ""
    plans: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class KeptHead:
    """What a list of answers shows. ``kind`` is FIT, FAR or SHOP; ``changed`` events came since.

    ``event`` is the newest that the answer knew of; ``bought`` are the lines of a shopping list
    that were bought, with the code each was given.
    """

    key: str
    kind: str
    title: str
    query: str
    asked_on: str
    changed: int
    plans: tuple[str, ...] = ()
    bought: tuple[tuple[str, str], ...] = ()
    about: Fact | None = None
    event: int = 0

    def titled(self, reader: Reader) -> str:
        """What was asked, in the reader's language, with a capital; an old one as it was kept."""
        said = say(self.about, reader) if self.about else self.title
        return said[:1].upper() + said[1:]


@dataclass(frozen=True, kw_only=True)
class KeptAnswer:
    """An answer as it was given: the lines of a fit, or the whole of another kind."""

    head: KeptHead
    lines: tuple[KeptLine, ...] = ()
    far: FartherAnswer | None = None
    shop: ShopAnswer | None = None

    def line(self, key: str) -> KeptLine:
        """One of its lines; NotFound when there is none with a lay."""
        for one in self.lines:
            if one.key == key and one.laid:
                return one
        raise NotFound("no_such_lay")


def keep(stash: Stash, key: str, asked: AskedFor, answer: AnyAnswer) -> None:
    """Keep an answer under its key."""
    kind, plain = _plain(answer)
    stash.answers.keep(key, {
        "kind": kind, "title": asked.title, "about": asked.about and plain_of(asked.about),
        "query": asked.query, "plans": list(asked.plans),
        "asked_on": datetime.now().isoformat("T", "minutes"), "event": stash.ledger.newest(),
    }, plain)


def kept(stash: Stash, key: str, kind: str | None = None) -> KeptAnswer:
    """One kept answer, of this kind; NotFound when there is none that this version can read."""
    found = stash.answers.get(key)
    head = _head(stash, key, found[0]) if found else None
    if not found or not head or kind not in (None, head.kind):
        raise NotFound("answer_not_kept")
    try:
        return KeptAnswer(head=head, **READ[head.kind](found[1]))
    except (KeyError, TypeError, ValueError, AttributeError) as unknown:
        raise NotFound("answer_not_kept") from unknown


def head_of(stash: Stash, key: str) -> KeptHead | None:
    """What a list shows of one; None when it is not kept."""
    found = stash.answers.get(key)
    return _head(stash, key, found[0]) if found else None


def since(stash: Stash, head: KeptHead, laid: Laid) -> tuple[Fact, ...]:
    """What has become of the cut since this answer drew a lay on it."""
    return since_asked(stash, laid, head.event, head.plans)


def lately(stash: Stash) -> list[KeptHead]:
    """Every kept answer, the newest first."""
    read = (_head(stash, key, plain) for key, plain in stash.answers.heads())
    return [one for one in read if one]


def for_plan(stash: Stash, name: str) -> list[KeptHead]:
    """The answers that were asked for this plan, or of which something is held for it."""
    return [one for one in lately(stash) if key_of(name) in map(key_of, one.plans)]


def held_for(stash: Stash, key: str, plan: str) -> None:
    """A lay of this answer is held for the plan now."""
    found = stash.answers.get(key)
    if found:
        known = [one for one in found[0].get("plans", ()) if key_of(one) != key_of(plan)]
        stash.answers.amend(key, plans=[*known, plan])


def was_bought(stash: Stash, key: str, line: str, code: str) -> None:
    """This line of the list is on record under this code now."""
    found = stash.answers.get(key)
    if found:
        stash.answers.amend(key, bought={**found[0].get("bought", {}), line: code})


def _plain(answer: AnyAnswer) -> tuple[str, dict[str, Any]]:
    if isinstance(answer, FartherAnswer):
        return FAR, {"far": to_plain(answer)}
    if isinstance(answer, ShopAnswer):
        return SHOP, {"shop": list_plain(answer)}
    return FIT, {"lines": [line_plain(one) for one in lines_of(answer)]}


READ: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {
    FIT: lambda plain: {"lines": tuple(line_read(one) for one in plain["lines"])},
    FAR: lambda plain: {"far": from_plain(FartherAnswer, plain["far"])},
    SHOP: lambda plain: {"shop": list_read(plain["shop"])},
}


def _head(stash: Stash, key: str, plain: dict[str, Any]) -> KeptHead | None:
    """None where a later or an earlier version wrote what this one cannot read."""
    try:
        if plain["kind"] not in READ:
            return None
        return KeptHead(
            key=key, kind=plain["kind"], title=plain["title"], query=plain["query"],
            asked_on=plain["asked_on"], plans=tuple(plain["plans"]),
            changed=max(stash.ledger.newest() - plain["event"], 0), event=plain["event"],
            bought=tuple(plain.get("bought", {}).items()), about=_about(plain),
        )
    except (KeyError, TypeError, AttributeError):
        return None


def _about(plain: dict[str, Any]) -> Fact | None:
    """None where none was kept, or where this version cannot say it."""
    try:
        return fact_of(plain["about"]) if plain.get("about") else None
    except (KeyError, TypeError, AttributeError):
        return None
