"""What cloth loses in the first wash: as measured, as its sister did, or as is prudent to presume.

The presumed figures are the upper end of what is published, rounded, and only a stand-in:
a washed swatch of the cloth itself wins. Each row of ``shrinkage_presumed.csv`` says
where it is from and how far to trust it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from stash.model import Cloth, Construction, Cut, ShrinkStatus
from stash.reference import table

# From this weight on cotton is the cloth of jeans, or near it (272 g/m2 is 8 oz).
HEAVY_GSM = 270.0
POLYESTER_BLEND_PCT = 30.0


class WashHabit(StrEnum):
    """How an unwashed cut is laid: for its size after the wash, or as it lies, on purpose."""

    FIRST = "first"
    AS_IT_LIES = "as it lies"


@dataclass(frozen=True)
class Presumed:
    """Percent lost along and across in the first wash, with the source and its standing."""

    name: str
    along_pct: float
    across_pct: float
    status: str
    source: str


def presumed(cloth: Cloth) -> Presumed:
    """The prudent figures for cloth of this fibre and making; the larger where one is unknown."""
    made = (
        [cloth.construction] if cloth.construction
        else [Construction.WOVEN, Construction.KNIT]
    )
    found = [_row(cloth, construction) for construction in made]
    return max(found, key=lambda row: row.along_pct)


def shrink_status(cut: Cut) -> ShrinkStatus:
    """How it is known what this cut still loses."""
    cloth = cut.cloth
    if cut.washed or not cloth.shrink_known:
        return ShrinkStatus.NONE
    if cloth.shrink_status is ShrinkStatus.SISTER and cloth.shrink_from == cut.code:
        return ShrinkStatus.MEASURED
    known = cloth.shrink_status
    return ShrinkStatus.MEASURED if known is ShrinkStatus.NONE else known


def as_laid(cut: Cut, habit: WashHabit, *, presume: bool = True) -> Cut:
    """The cut with the shrinkage it is laid for; a presumed one says that it is presumed."""
    if cut.washed:
        return cut
    if habit is WashHabit.AS_IT_LIES:
        return unshrunk(cut)
    cloth = cut.cloth
    if cloth.shrink_known or not presume or _never_washed(cloth):
        return cut
    likely = presumed(cloth)
    return replace(cut, cloth=replace(
        cloth, shrink_along_pct=likely.along_pct, shrink_across_pct=likely.across_pct,
        shrink_status=ShrinkStatus.PRESUMED,
    ))


def unshrunk(cut: Cut) -> Cut:
    """The cut laid as it lies, unwashed on purpose: its cloth is taken to lose nothing."""
    return replace(cut, cloth=replace(
        cut.cloth, shrink_along_pct=0.0, shrink_across_pct=0.0, shrink_status=ShrinkStatus.NONE,
    ))


def will_shrink(cut: Cut) -> bool:
    """True when the wash is still to come and is reckoned to take something."""
    lost = cut.cloth.shrink_along_pct or cut.cloth.shrink_across_pct
    return not cut.washed and bool(lost)


def _never_washed(cloth: Cloth) -> bool:
    return bool(cloth.dry_clean_only) or cloth.construction is Construction.NONWOVEN


def _row(cloth: Cloth, construction: Construction) -> Presumed:
    """The row that fits most closely; the table names the closest of a fibre first."""
    fibre = max(cloth.fibres, key=lambda share: share.percent).fibre.lower() if cloth.fibres else ""
    where = _where(cloth, construction)
    same = [
        row for row in table("shrinkage_presumed")
        if fibre and fibre in row["fibres"].split(";")
        and row["construction"] in ("any", construction.value)
        and row["where"] in ("", where)
    ]
    unknown = [
        row for row in table("shrinkage_presumed")
        if not row["fibres"] and row["construction"] == construction.value
    ]
    row = max(same or unknown[:1] or list(table("shrinkage_presumed")[-1:]),
              key=lambda row: bool(row["where"]))
    return Presumed(
        name=row["name"], along_pct=float(row["along_pct"]),
        across_pct=float(row["across_pct"]), status=row["status"], source=row["source"],
    )


def _where(cloth: Cloth, construction: Construction) -> str:
    """The condition of the table that this cloth meets, "" for none."""
    shares = {share.fibre.lower(): share.percent for share in cloth.fibres}
    if construction is not Construction.WOVEN:
        return ""
    if shares.get("polyester", 0.0) >= POLYESTER_BLEND_PCT:
        return "polyester from 30 %"
    heavy = (cloth.mass_gsm or 0.0) >= HEAVY_GSM
    return "elastane from 270 g/m2" if heavy and shares.get("elastane") else ""
