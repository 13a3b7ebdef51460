"""Looking back: metres and money in and out, what lies idle, what was made from what."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import cache

from stash.ledger import Kind
from stash.ledger.flows import Direction, Flow, flows
from stash.model import Cloth
from stash.model.exact import from_plain
from stash.model.laid import Laid
from stash.reference import table
from stash.store import Stash
from stash.store.naming import key_of
from stash.workroom.rag import mass_g

MOST_IDLE = 20


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


def report(stash: Stash, by: By = By.MONTH) -> Report:
    """Everything the ledger says of cloth, by month, fibre, person or plan."""
    found = flows(stash.ledger.events())
    cloths = stash.cloths.all()
    key = _keys(stash, by, cloths)
    rows: dict[str, ReportRow] = {}
    for flow in found:
        name = key(flow)
        rows[name] = _added(rows.get(name) or ReportRow(key=name), flow, cloths.get(flow.cloth))
    return Report(
        by=by, rows=tuple(rows[name] for name in sorted(rows)),
        here_mm=sum(f.mm if f.way in (Direction.IN, Direction.FOUND) else -f.mm for f in found),
        idle=_idle(stash, found), lays=tuple(_lays(found, cloths)),
        published=published(),
    )


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


def _keys(stash: Stash, by: By, cloths: Mapping[str, Cloth]) -> Callable[[Flow], str]:
    people = {
        key_of(plan.name): " & ".join(dict.fromkeys(g.person for g in plan.garments if g.person))
        for plan in stash.plans.all()
    }

    def key(flow: Flow) -> str:
        if by is By.MONTH:
            return flow.event.at[:7]
        if by is By.FIBRE:
            cloth = cloths.get(flow.cloth)
            shares = sorted(cloth.fibres, key=lambda s: -s.percent) if cloth else []
            return shares[0].fibre if shares else ""
        if by is By.PLAN:
            return flow.plan or ""
        return people.get(key_of(flow.plan), "") if flow.plan else ""

    return key


def _added(row: ReportRow, flow: Flow, cloth: Cloth | None) -> ReportRow:
    price = (cloth.price_minor_per_m if cloth else None) or 0
    money = flow.mm / 1000 * price
    return replace(
        row, mm={**row.mm, flow.way: row.mm.get(flow.way, 0.0) + flow.mm},
        bought_minor=row.bought_minor + (money if flow.way is Direction.IN else 0.0),
        used_minor=row.used_minor + (money if flow.way is Direction.USED else 0.0),
        sold_minor=row.sold_minor + (flow.sold_minor or 0), waste_mm=row.waste_mm + flow.waste_mm,
        rag_mm2=row.rag_mm2 + flow.waste_mm2, rag_g=row.rag_g + (_rag_g(flow, cloth) or 0.0),
    )


def _rag_g(flow: Flow, cloth: Cloth | None) -> float | None:
    return mass_g(flow.waste_mm2, cloth.mass_gsm if cloth else None)


def _idle(stash: Stash, found: tuple[Flow, ...]) -> tuple[IdleCut, ...]:
    """The cuts here that nothing happened to for longest; when they came in is their age."""
    touched = {code: flow.event.at[:10] for flow in found for code in flow.event.arrivals}
    touched |= {flow.code: flow.event.at[:10] for flow in found}
    times = Counter(flow.code for flow in found)
    idle = [
        IdleCut(code=cut.code, name=cut.cloth.name, mm=cut.length_mm,
                since=cut.acquired if cut.acquired and touched.get(cut.code, "9") > cut.acquired
                and times[cut.code] == 1
                else touched.get(cut.code, ""))
        for cut in stash.cuts.all()
    ]
    return tuple(sorted(idle, key=lambda one: (one.since, -one.mm))[:MOST_IDLE])


def _lays(found: tuple[Flow, ...], cloths: Mapping[str, Cloth]) -> list[CutLay]:
    lays = []
    for flow in found:
        if flow.event.kind not in (Kind.CUT_OUT, Kind.SEVERAL) or flow.way is not Direction.USED:
            continue
        part = flow.event.change[flow.code]
        for step in part.get("steps", ()):
            part = step["part"] if "lay" in step["part"] else part
        if part.get("lay") is None:
            continue
        cloth = cloths.get(flow.cloth)
        lays.append(CutLay(
            plan=flow.plan, code=flow.code, name=cloth.name if cloth else "",
            on=flow.event.at[:10], utilisation=_utilisation(part["lay"]), used_mm=flow.mm,
            waste_mm=flow.waste_mm, rag_mm2=flow.waste_mm2, rag_g=_rag_g(flow, cloth),
            against=_against(_utilisation(part["lay"]))))
    return lays


def _utilisation(lay: object) -> float | None:
    if not isinstance(lay, Mapping):
        return None
    if "cut" in lay:
        return from_plain(Laid, lay).lay.utilisation
    value = lay.get("utilisation")
    return float(value) if isinstance(value, int | float) else None


def _safe(text: str) -> str:
    """No cell begins a formula."""
    return f"'{text}" if text[:1] in "=+-@\t\r" and text else text
