"""The sums as they are read."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass

from stash.ledger.flows import Direction
from stash.store.turnover.tables import SUMMED


@dataclass(frozen=True, kw_only=True)
class FlowSum:
    """What went one way in a month, of one fibre, for one plan ("" for none).

    ``mm`` is running length, ``money_minor`` that length at the cloth's price.
    """

    month: str
    fibre: str
    plan: str
    way: Direction
    mm: float
    money_minor: float
    sold_minor: int
    waste_mm: float
    waste_mm2: int
    rag_g: float


@dataclass(frozen=True, kw_only=True)
class KeptLay:
    """A lay that was cut; ``rag_g`` is None where the weight of the cloth is not known."""

    code: str
    cloth: str
    on: str
    plan: str | None
    utilisation: float | None
    used_mm: float
    waste_mm: float
    waste_mm2: int
    rag_g: float | None


@dataclass(frozen=True, kw_only=True)
class KeptIdle:
    """A cut that is here, and the day since when nothing was taken from it."""

    code: str
    since: str
    mm: float


@dataclass(frozen=True, kw_only=True)
class KeptTrait:
    """The cuts here with one value of a trait, and their running length."""

    value: str | float
    cuts: int
    running_mm: float


class KeptSums:
    """The open file, brought up to the last event."""

    def __init__(self, db: sqlite3.Connection):
        self.db = db

    def flowed(self) -> Iterator[FlowSum]:
        """Every sum of flows, in order of its month."""
        for month, fibre, plan, way, um, milli, sold, waste_um, mm2, mg in self.db.execute(
            f"SELECT month, fibre, plan, way, {', '.join(SUMMED)} FROM flowed WHERE flows > 0"
            " ORDER BY month, fibre, plan, way"
        ):
            yield FlowSum(
                month=month, fibre=fibre, plan=plan, way=Direction(way), mm=um / 1000,
                money_minor=milli / 1000, sold_minor=sold, waste_mm=waste_um / 1000,
                waste_mm2=mm2, rag_g=mg / 1000)

    def lays(self, most: int | None = None) -> list[KeptLay]:
        """The lays that were cut, oldest first; the newest so many where ``most`` is given."""
        rows = self.db.execute(
            "SELECT code, cloth, day, plan, utilisation, length_um, waste_um, waste_mm2, rag_mg"
            " FROM flow INDEXED BY flow_lay WHERE lay ORDER BY event DESC LIMIT ?",
            [-1 if most is None else most]).fetchall()
        return [
            KeptLay(code=code, cloth=cloth, on=day, plan=plan or None, utilisation=share,
                    used_mm=um / 1000, waste_mm=waste_um / 1000, waste_mm2=mm2,
                    rag_g=None if mg is None else mg / 1000)
            for code, cloth, day, plan, share, um, waste_um, mm2, mg in reversed(rows)]

    def idle(self, most: int) -> list[KeptIdle]:
        """The cuts that nothing was taken from for longest, the longest first."""
        rows = self.db.execute(
            "SELECT code, since, length_um FROM here ORDER BY since, length_um DESC LIMIT ?",
            [most])
        return [KeptIdle(code=code, since=since, mm=um / 1000) for code, since, um in rows]

    def stock(self, trait: str) -> list[KeptTrait]:
        """The cuts that are here, by one of tables.TRAITS."""
        rows = self.db.execute(
            "SELECT value, cuts, running_um FROM stock WHERE trait = ? AND cuts > 0", [trait])
        return [KeptTrait(value=value, cuts=cuts, running_mm=um / 1000)
                for value, cuts, um in rows]
