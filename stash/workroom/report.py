"""Looking back: metres and money in and out, what lies idle, what was made from what."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import cache

from stash.ledger.flows import Direction
from stash.reference import table
from stash.store import Stash
from stash.store.naming import key_of
from stash.store.turnover import FlowSum, KeptIdle, KeptLay, Progress, untold

MOST_IDLE = 20
SUMMED_MEANWHILE = 20_000
"""So many events are summed up while somebody waits: about two seconds."""


class By(StrEnum):
    """What the rows of a report are."""

    MONTH = "month"
    FIBRE = "fibre"
    PERSON = "person"
    PLAN = "plan"


@dataclass(frozen=True, kw_only=True)
class ReportRow:
    """Running metres (in mm) and money of one month, fibre, person or plan.

    ``rag_g`` is the weight of the rag whose cloth was weighed.
    """

    key: str
    mm: Mapping[str, float] = field(default_factory=dict)
    bought_minor: float = 0.0
    used_minor: float = 0.0
    sold_minor: float = 0.0
    waste_mm: float = 0.0
    rag_mm2: float = 0.0
    rag_g: float = 0.0

    def to_json(self) -> dict[str, object]:
        """``{"key", "in_mm", "used_mm", ..., "bought_minor", "used_minor", "sold_minor"}``."""
        return {
            "key": self.key, **{f"{way}_mm": round(self.mm.get(way, 0.0), 1) for way in Direction},
            "waste_mm": round(self.waste_mm, 1), "bought_minor": round(self.bought_minor),
            "used_minor": round(self.used_minor), "sold_minor": round(self.sold_minor),
            "rag_mm2": round(self.rag_mm2), "rag_g": round(self.rag_g, 1),
        }


@dataclass(frozen=True, kw_only=True)
class IdleCut:
    """A cut that nothing was taken from since a day."""

    code: str
    name: str
    mm: float
    since: str


@dataclass(frozen=True, kw_only=True)
class CutLay:
    """A lay that was cut: how much of its length became pieces, and what was left as waste.

    ``against`` the published range of home layouts it is "below", "within" or "above".
    """

    plan: str | None
    code: str
    name: str
    on: str
    utilisation: float | None
    used_mm: float
    waste_mm: float
    rag_mm2: float
    rag_g: float | None
    against: str | None


@dataclass(frozen=True, kw_only=True)
class PublishedRange:
    """How much of a lay becomes pieces, in per cent, as published; with status and source."""

    case: str
    least_pct: float
    most_pct: float
    status: str
    source: str


@dataclass(frozen=True, kw_only=True)
class Report:
    """The rows, the cuts that were idle longest, and every lay that was cut."""

    by: By
    rows: tuple[ReportRow, ...]
    here_mm: float
    idle: tuple[IdleCut, ...]
    lays: tuple[CutLay, ...]
    published: tuple[PublishedRange, ...] = ()

    def to_json(self) -> dict[str, object]:
        """Plain values, lengths in mm of running cloth, money in minor units."""
        return {
            "by": self.by.value, "rows": [row.to_json() for row in self.rows],
            "here_mm": round(self.here_mm, 1), "idle": [vars(one) for one in self.idle],
            "lays": [vars(one) for one in self.lays],
            "published": [vars(one) for one in self.published],
        }

    def csv(self) -> str:
        """The rows as a table for a spreadsheet."""
        text = io.StringIO()
        columns = list(ReportRow(key="").to_json())
        table = csv.DictWriter(text, columns, lineterminator="\r\n")
        table.writeheader()
        table.writerows({**row.to_json(), "key": _safe(row.key)} for row in self.rows)
        return text.getvalue()


def report(stash: Stash, by: By = By.MONTH, *, most_lays: int | None = None) -> Report:
    """Everything the ledger says of cloth, by month, fibre, person or plan.

    With ``most_lays`` only the newest so many of the lays that were cut.
    """
    with stash.turnover.now() as kept:
        found, lays, idle = tuple(kept.flowed()), kept.lays(most_lays), kept.idle(MOST_IDLE)
    key = _keys(stash, by)
    rows: dict[str, ReportRow] = {}
    for flow in found:
        rows[key(flow)] = _added(rows.get(key(flow)) or ReportRow(key=key(flow)), flow)
    return Report(
        by=by, rows=tuple(rows[name] for name in sorted(rows)),
        here_mm=sum(f.mm if f.way in (Direction.IN, Direction.FOUND) else -f.mm for f in found),
        idle=_named(stash, idle), lays=_lays(stash, lays), published=published(),
    )


def is_summed_up(stash: Stash) -> bool:
    """Whether a look back is answered at once; if not, :func:`bring_up` takes a while."""
    return stash.turnover.unread() <= SUMMED_MEANWHILE


def bring_up(stash: Stash, progress: Progress = untold) -> None:
    """Sum up what happened since somebody last looked back, so that nobody waits for it.

    ``progress`` is told (events read, of how many) where everything is summed up from nothing.
    """
    with stash.turnover.now(progress):
        pass


@cache
def published() -> tuple[PublishedRange, ...]:
    """The published ranges, that of home layouts first."""
    return tuple(
        PublishedRange(case=row["case"], least_pct=float(row["least_pct"]),
                       most_pct=float(row["most_pct"]), status=row["status"],
                       source=row["source"])
        for row in table("marker_efficiency"))


def _against(utilisation: float | None) -> str | None:
    if utilisation is None:
        return None
    home, pct = published()[0], 100 * utilisation
    return "below" if pct < home.least_pct else "above" if pct > home.most_pct else "within"


def _keys(stash: Stash, by: By) -> Callable[[FlowSum], str]:
    if by is By.MONTH:
        return lambda flow: flow.month
    if by is By.FIBRE:
        return lambda flow: flow.fibre
    if by is By.PLAN:
        return lambda flow: flow.plan
    people = {
        key_of(plan.name): " & ".join(dict.fromkeys(g.person for g in plan.garments if g.person))
        for plan in stash.plans.all()
    }
    return lambda flow: people.get(key_of(flow.plan), "") if flow.plan else ""


def _added(row: ReportRow, flow: FlowSum) -> ReportRow:
    bought, used = (flow.money_minor if flow.way is way else 0.0
                    for way in (Direction.IN, Direction.USED))
    return replace(
        row, mm={**row.mm, flow.way: row.mm.get(flow.way, 0.0) + flow.mm},
        bought_minor=row.bought_minor + bought, used_minor=row.used_minor + used,
        sold_minor=row.sold_minor + flow.sold_minor, waste_mm=row.waste_mm + flow.waste_mm,
        rag_mm2=row.rag_mm2 + flow.waste_mm2, rag_g=row.rag_g + flow.rag_g,
    )


def _named(stash: Stash, idle: list[KeptIdle]) -> tuple[IdleCut, ...]:
    """The cuts here that nothing happened to for longest; when they came in is their age."""
    names = {card.cut.code: card.cut.cloth.name
             for card in stash.cuts.cards_of(one.code for one in idle)}
    return tuple(IdleCut(code=one.code, name=names.get(one.code, ""), mm=one.mm, since=one.since)
                 for one in idle)


def _lays(stash: Stash, kept: list[KeptLay]) -> tuple[CutLay, ...]:
    names = stash.cloths.names({one.cloth for one in kept})
    return tuple(
        CutLay(
            plan=one.plan, code=one.code, name=names.get(one.cloth, ""), on=one.on,
            utilisation=one.utilisation, used_mm=one.used_mm, waste_mm=one.waste_mm,
            rag_mm2=one.waste_mm2, rag_g=one.rag_g, against=_against(one.utilisation))
        for one in kept)


def _safe(text: str) -> str:
    """No cell begins a formula."""
    return f"'{text}" if text[:1] in "=+-@\t\r" and text else text
