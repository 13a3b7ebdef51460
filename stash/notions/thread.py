"""Thread by the metre: ISO 4915 stitch classes and the geometry of one stitch.

Every formula is C = base + (per_thickness T + per_width W + per_diagonal D) / L: the
length of thread for one unit of seam, where T is the seam's thickness, W the width of
the stitch, L the stitch length and D the diagonal of L and W. The coefficients,
with their sources, stand in stitches.csv.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from math import hypot

from stash.errors import InvalidInput
from stash.model import Need, NotionKind, Seam
from stash.notions.rules import value
from stash.notions.table import rows


@dataclass(frozen=True)
class Stitch:
    """One ISO 4915 class: coefficients of its formula and where they come from.

    ``width_mm`` is its usual width, ``needle_share_pct`` how much of the thread the
    needles take, ``ratio`` the published length of thread per length of seam; None
    where nothing is known.
    """

    stitch: str
    name: str
    base: float
    per_thickness: float
    per_width: float
    per_diagonal: float
    width_mm: float
    needle_share_pct: float | None
    ratio: float | None
    status: str
    source: str
    share_source: str


@dataclass(frozen=True, kw_only=True)
class Setting:
    """How the machine is set; None takes the usual value of the trade."""

    thickness_mm: float | None = None
    stitch_length_mm: float | None = None
    width_mm: float | None = None


@dataclass(frozen=True)
class ThreadUse:
    """Thread for some stitching, waste included; the split is None where it is not known."""

    total_mm: float
    needle_mm: float | None
    under_mm: float | None


USUAL = Setting()


@cache
def stitches() -> dict[str, Stitch]:
    """Every stitch class of stitches.csv, by its number."""
    return {r["stitch"]: Stitch(**{k: _read(k, v) for k, v in r.items()}) for r in rows("stitches")}


def stitch_class(number: str) -> Stitch:
    """One class; InvalidInput lists the known ones."""
    if number not in stitches():
        known = ", ".join(stitches())
        raise InvalidInput(f"“{number}” is not a stitch class known here: use {known}.",
                           field="class")
    return stitches()[number]


def thread_ratio(number: str, setting: Setting = USUAL) -> float:
    """Length of thread for one length of seam, by the formula of the class."""
    stitch = stitch_class(number)
    thickness = _given(setting.thickness_mm, value("seam_thickness"), "thickness")
    length = _given(setting.stitch_length_mm, value("stitch_length"), "stitch length")
    width = _given(setting.width_mm, stitch.width_mm, "stitch width")
    if length == 0:
        raise InvalidInput("The stitch length must be more than nothing.", field="stitch length")
    across = (
        stitch.per_thickness * thickness
        + stitch.per_width * width
        + stitch.per_diagonal * hypot(length, width)
    )
    return stitch.base + across / length


def thread_use(seam: Seam, setting: Setting = USUAL, waste_pct: float | None = None) -> ThreadUse:
    """Thread that one seam takes, by needle and under thread (looper or bobbin)."""
    waste = value("thread_waste") if waste_pct is None else waste_pct
    total = seam.length_mm * thread_ratio(seam.stitch, setting) * (1 + waste / 100)
    share = stitch_class(seam.stitch).needle_share_pct
    if share is None:
        return ThreadUse(total, None, None)
    return ThreadUse(total, total * share / 100, total * (1 - share / 100))


def thread_need(
    seams: Iterable[Seam], *, buttonholes: int = 0, why: str = "all seams", group: str = ""
) -> Need:
    """All the thread of one colour that these seams and buttonholes take, waste included."""
    sewn = sum(thread_use(seam).total_mm for seam in seams)
    each = value("thread_per_buttonhole") + value("thread_per_button")
    return Need(
        kind=NotionKind.THREAD,
        why=why,
        length_mm=sewn + buttonholes * each * 1000,
        group=group,
        match_colour=True,
    )


def _given(set_to: float | None, usual: float, what: str) -> float:
    if set_to is None:
        return usual
    if not 0 <= set_to <= 100:
        raise InvalidInput(f"A {what} of {set_to:g} mm cannot be sewn.", field=what)
    return set_to


def _read(column: str, text: str) -> str | float | None:
    if column in {"stitch", "name", "status", "source", "share_source"}:
        return text
    return float(text) if text else None
