"""Thread by the metre: ISO 4915 stitch classes and the geometry of one stitch.

A chained or locked seam follows the published formula C = base + (per_thickness T +
per_width W + per_diagonal D) / L: the length of thread for one unit of seam, where T is
the seam's thickness, W the width of the stitch, L the stitch length and D the diagonal
of L and W. An overlocked edge is reckoned thread by thread, because its published
formula is a third high at a home machine's stitch length. The coefficients, with their
sources, stand in stitches.csv.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from math import hypot

from stash.errors import InvalidInput
from stash.model import Need, NotionKind, Seam
from stash.notions.published_tables import rows
from stash.notions.rules import value


@dataclass(frozen=True)
class Stitch:
    """One ISO 4915 class: the threads it runs, its formula and where that comes from.

    ``needles`` and ``unders`` (bobbin or loopers) run at once; ``geometry`` is "chain"
    (the published formula) or "edge" (thread by thread). ``width_mm`` is its usual
    width, ``needle_share_pct`` how much of the thread the needles take where it is
    published, ``ratio`` the published length of thread per length of seam at
    ``ratio_per_cm`` stitches a centimetre; None where nothing is known.
    """

    stitch: str
    name: str
    needles: int
    unders: int
    geometry: str
    base: float
    per_thickness: float
    per_width: float
    per_diagonal: float
    width_mm: float
    needle_share_pct: float | None
    ratio: float | None
    ratio_per_cm: float | None
    status: str
    source: str
    ratio_status: str
    ratio_source: str
    share_status: str
    share_source: str

    @property
    def locked(self) -> bool:
        """True for a lockstitch: its under thread is wound on the bobbin from the spool."""
        return self.stitch.startswith("3")

    @property
    def spools_at_once(self) -> int:
        """How many spools run at once; a bobbin is wound from the needle's."""
        return self.needles if self.locked else self.needles + self.unders


@dataclass(frozen=True, kw_only=True)
class Setting:
    """How the machine is set; None takes the usual value of the trade."""

    thickness_mm: float | None = None
    stitch_length_mm: float | None = None
    width_mm: float | None = None


@dataclass(frozen=True)
class ThreadUse:
    """Thread for some stitching, waste included; the split is None where it is not known.

    ``most_each_mm`` is what the hungriest of the spools that run at once gives.
    """

    total_mm: float
    needle_mm: float | None
    under_mm: float | None
    spools_at_once: int = 1
    most_each_mm: float = 0.0


USUAL = Setting()
_TEXTS = {"stitch", "name", "geometry", "status", "source", "ratio_status", "ratio_source",
          "share_status", "share_source"}
OVERLOCK = "overlock"
"""The use of the thread that finishes raw edges."""
# What a stitch class is used for, by its first figure; ISO 4915's own division.
_USES = {"1": "chainstitch", "3": "sewing", "4": "coverstitch", "5": OVERLOCK,
         "6": "coverstitch"}


@cache
def stitches() -> dict[str, Stitch]:
    """Every stitch class of stitches.csv, by its number."""
    return {r["stitch"]: _stitch(r) for r in rows("stitches")}


def stitch_class(number: str) -> Stitch:
    """One class; InvalidInput lists the known ones."""
    if number not in stitches():
        raise InvalidInput(
            "unknown_stitch", typed=number, known=", ".join(stitches()), field="class"
        )
    return stitches()[number]


def thread_use_name(number: str) -> str:
    """"sewing", "zigzag", "overlock", "coverstitch" or "chainstitch"."""
    return "zigzag" if number == "304" else "chainstitch" if number == "401" else _USES[number[0]]


def thread_ratio(number: str, setting: Setting = USUAL) -> float:
    """Length of thread for one length of seam, before waste."""
    stitch = stitch_class(number)
    if stitch.geometry == "edge":
        needle, looper, length = _edge(stitch, setting)
        return (stitch.needles * needle + stitch.unders * looper) / length
    return formula_ratio(number, setting)


def formula_ratio(number: str, setting: Setting = USUAL) -> float:
    """The published formula of a class, also where a better reckoning is used."""
    stitch = stitch_class(number)
    thickness, length, width = _set(stitch, setting)
    across = (
        stitch.per_thickness * thickness
        + stitch.per_width * width
        + stitch.per_diagonal * hypot(length, width)
    )
    return stitch.base + across / length


def needle_share_pct(number: str, setting: Setting = USUAL) -> float | None:
    """How much of the thread goes through the needles; None where nobody knows."""
    stitch = stitch_class(number)
    if stitch.geometry != "edge":
        return stitch.needle_share_pct
    needle, looper, _ = _edge(stitch, setting)
    return 100 * stitch.needles * needle / (stitch.needles * needle + stitch.unders * looper)


def thread_use(seam: Seam, setting: Setting = USUAL, waste_pct: float | None = None) -> ThreadUse:
    """Thread that one seam takes, by needle and under thread (looper or bobbin)."""
    stitch, waste = stitch_class(seam.stitch), waste_or_usual(waste_pct)
    total = seam.length_mm * thread_ratio(seam.stitch, setting) * (1 + waste / 100)
    share = needle_share_pct(seam.stitch, setting)
    at_once = stitch.spools_at_once
    if share is None:
        return ThreadUse(total, None, None, at_once, total / at_once)
    needle, under = total * share / 100, total * (1 - share / 100)
    if stitch.locked:
        return ThreadUse(total, needle, under, at_once, total / at_once)
    most = max(needle / stitch.needles, under / stitch.unders if stitch.unders else 0.0)
    return ThreadUse(total, needle, under, at_once, most)


def waste_or_usual(waste_pct: float | None = None) -> float:
    """Percent of thread left in ends and test rows; the trade's where none is given."""
    return value("thread_waste") if waste_pct is None else waste_pct


def thread_needs(seams: Iterable[Seam], *, buttonholes: int = 0) -> tuple[Need, ...]:
    """The thread of these seams, a need for each use, sewing first.

    Buttons and buttonholes are sewn with the sewing thread. What finishes edges lies
    inside, so its colour need not match (common practice, no source).
    """
    by_use: dict[str, list[Seam]] = {"sewing": []}
    for seam in seams:
        by_use.setdefault(thread_use_name(seam.stitch), []).append(seam)
    return tuple(
        thread_need(lines, buttonholes=buttonholes if use == "sewing" else 0, group=use,
                    why="raw edges of the seams" if use == OVERLOCK else "all seams")
        for use, lines in by_use.items()
        if lines or (use == "sewing" and buttonholes)
    )


def thread_need(
    seams: Iterable[Seam], *, buttonholes: int = 0, why: str = "all seams", group: str = "sewing"
) -> Need:
    """All the thread of one use that these seams and buttonholes take, waste included."""
    uses = [thread_use(seam) for seam in seams]
    each = (value("thread_per_buttonhole") + value("thread_per_button")) * 1000
    return Need(
        kind=NotionKind.THREAD,
        why=why,
        length_mm=sum(use.total_mm for use in uses) + buttonholes * each,
        group=group,
        match_colour=group in {"sewing", "coverstitch", "chainstitch"},
        spools_at_once=max((use.spools_at_once for use in uses), default=1),
        most_each_mm=sum(use.most_each_mm for use in uses) + buttonholes * each,
    )


def _edge(stitch: Stitch, setting: Setting) -> tuple[float, float, float]:
    """(one needle's, one looper's thread in one stitch, the stitch length), millimetres."""
    thickness, length, width = _set(stitch, setting)
    return length + 2 * thickness, 2 * hypot(width, length / 2) + thickness, length


def _set(stitch: Stitch, setting: Setting) -> tuple[float, float, float]:
    """(thickness, stitch length, width) in millimetres; InvalidInput for what no machine has."""
    thickness = _given(setting.thickness_mm, value("seam_thickness"), "thickness")
    length = _given(setting.stitch_length_mm, value("stitch_length"), "stitch length")
    width = _given(setting.width_mm, stitch.width_mm, "stitch width")
    if length == 0:
        raise InvalidInput("stitch_without_length", field="stitch length")
    return thickness, length, width


def _given(set_to: float | None, usual: float, what: str) -> float:
    if set_to is None:
        return usual
    if not 0 <= set_to <= 100:
        raise InvalidInput("cannot_be_sewn", what=what, set_mm=set_to, field=what)
    return set_to


def _stitch(row: dict[str, str]) -> Stitch:
    read: dict[str, object] = {
        name: text if name in _TEXTS else float(text) if text else None
        for name, text in row.items()
    }
    read |= {"needles": int(row["needles"]), "unders": int(row["unders"])}
    return Stitch(**read)  # type: ignore[arg-type]  # the columns are the fields
