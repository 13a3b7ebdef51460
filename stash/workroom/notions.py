"""Formulae of the trade, asked at the table: buttons on a front, thread in seams."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from stash.fact import Fact, Term, Value, fact
from stash.model import Closure, Need, NotionKind, Seam
from stash.notions import (
    ButtonPlan,
    Setting,
    ThreadUse,
    best_count,
    button_plan,
    closure_for,
    counts_that_hold,
    stitch_class,
    thread_ratio,
    thread_use,
    thread_use_name,
    waste_or_usual,
)
from stash.notions.as_sold import Sold, thread_sold
from stash.notions.buttons import buttonhole_mm, overlap_least_mm, overlap_strict_mm, with_spare
from stash.notions.rules import value
from stash.notions.thread import Stitch
from stash.units import YARD_MM, System

__all__ = ["ButtonPlan", "Setting", "ThreadUse"]

# Thread for less than a seam or two is told to the centimetre.
LITTLE_MM = 20_000.0
NOTHING = 1e-9


@dataclass(frozen=True, kw_only=True)
class ButtonSpacing:
    """Buttons on a front: where, how many to buy, which overlap, and whether it stays closed."""

    closure: Closure
    plan: ButtonPlan
    to_buy: int
    buttonhole_mm: float
    overlap_least_mm: float
    overlap_strict_mm: float
    hole_beyond_centre_mm: float
    counts_that_hold: tuple[int, ...]


def space_buttons(
    front_mm: float, diameter_mm: float, count: int | None = None, *,
    bust_mm: float | None = None, overlap_mm: float | None = None,
    thickness_mm: float | None = None, shank: bool = False,
) -> ButtonSpacing:
    """Buttons spaced on a front edge, as many as lie well unless a count is given.

    ``thickness_mm`` and ``shank`` (domed, or on a shank) say how long the holes are.
    """
    closure = closure_for(front_mm, diameter_mm, bust_mm=bust_mm, overlap_mm=overlap_mm)
    plan = button_plan(closure, [diameter_mm] * (best_count(closure) if count is None else count))
    diameter = plan.diameters_mm[0]
    return ButtonSpacing(
        closure=closure, plan=plan, to_buy=with_spare(plan.count),
        buttonhole_mm=buttonhole_mm(diameter, thickness_mm, shank=shank),
        overlap_least_mm=overlap_least_mm(diameter),
        overlap_strict_mm=overlap_strict_mm(diameter),
        hole_beyond_centre_mm=value("horizontal_hole_beyond_centre"),
        counts_that_hold=counts_that_hold(closure, diameter_mm),
    )


@dataclass(frozen=True, kw_only=True)
class ThreadAnswer:
    """Thread for a length of seam, and where its ratio was published."""

    seam: Seam
    stitch: Stitch
    ratio: float
    waste_pct: float
    use: ThreadUse

    def to_json(self) -> dict[str, object]:
        """Lengths in mm, waste in per cent, with the sources of ratio and shares."""
        stitch, use = self.stitch, self.use
        under = _rounded(use.under_mm)
        return {
            "class": self.seam.stitch,
            "name": stitch.name,
            "use": thread_use_name(self.seam.stitch),
            "seam_mm": self.seam.length_mm,
            "ratio": round(self.ratio, 4),
            "published_ratio": stitch.ratio,
            "published_per_cm": stitch.ratio_per_cm,
            "waste_pct": self.waste_pct,
            "without_waste_mm": round(self.seam.length_mm * self.ratio, 1),
            "total_mm": round(use.total_mm, 1),
            "thread_mm": round(use.total_mm, 1),
            "needle_mm": _rounded(use.needle_mm),
            "looper_mm": None if stitch.locked else under,
            "under_mm": under,
            "spools_at_once": use.spools_at_once,
            "sold": {"count": self.sold.count, "put_up": self.sold.put_up,
                     "put_up_mm": self.sold.put_up_mm},
            "status": stitch.status,
            "source": stitch.source,
            "share_status": stitch.share_status,
            "share_source": stitch.share_source,
        }

    @property
    def sold(self) -> Sold:
        """The spools or cones that a shop sells for it, rounded up."""
        use = self.use
        return thread_sold([Need(
            kind=NotionKind.THREAD, why="all seams", length_mm=use.total_mm,
            group=thread_use_name(self.seam.stitch), spools_at_once=use.spools_at_once,
            most_each_mm=use.most_each_mm,
        )])

    def _sold(self) -> Fact:
        sold = self.sold
        return fact(f"sold_on_{sold.put_up}s", count=sold.count, each_thread_mm=sold.put_up_mm)

    def fact(self, system: System = System.METRIC) -> Fact:
        """What is so, for a sentence: each part as it is shown; they add up to the whole."""
        use = self.use
        step_mm = _told_by_mm(use.total_mm, system)
        total, *parts = (
            ceil(part / step_mm - NOTHING) * step_mm
            for part in (use.total_mm, use.needle_mm, use.under_mm) if part is not None)
        values: dict[str, Value] = {
            "total_wound_mm": sum(parts) or total, "seam_mm": self.seam.length_mm,
            "sold": self._sold(), "stitch": self.seam.stitch, "name": Term(self.stitch.name),
            "ratio": round(self.ratio, 2), "waste_pct": self.waste_pct,
        }
        if len(parts) < 2:
            return fact("thread_taken", **values)
        kind = "thread_taken_bobbin" if self.stitch.locked else "thread_taken_looper"
        return fact(
            kind, needle_wound_mm=parts[0], under_wound_mm=parts[1], count=use.spools_at_once,
            **values)


def _told_by_mm(total_mm: float, system: System) -> float:
    """Whole metres or yards, as thread is wound off; of little the tape's own step."""
    if total_mm < LITTLE_MM:
        return 10.0 if system is System.METRIC else YARD_MM / 8
    return 1000.0 if system is System.METRIC else YARD_MM


def thread_for(
    stitch: str, seam_mm: float, setting: Setting, waste_pct: float | None = None
) -> ThreadAnswer:
    """Thread that a length of seam takes in an ISO 4915 class of stitch."""
    seam = Seam("all", seam_mm, stitch)
    return ThreadAnswer(
        seam=seam, stitch=stitch_class(stitch), ratio=thread_ratio(stitch, setting),
        waste_pct=waste_or_usual(waste_pct), use=thread_use(seam, setting, waste_pct),
    )


def _rounded(mm: float | None) -> float | None:
    return None if mm is None else round(mm, 1)
