"""A person for whom garments are made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace


@dataclass(frozen=True, kw_only=True)
class MeasureSet:
    """What was measured on one day ("2026-11-30"; empty when nobody noted it), mm."""

    measured_on: str = ""
    measurements_mm: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Person:
    """A name and body measurements in mm, by the terms of ``stash.draft.body``.

    ``body`` chooses the table used for what was not measured: "women", "men" or
    "children"; None lets the measurements decide. ``earlier`` keeps older sets of
    measurements, the newest of them last. ``adjustments_mm`` are the changes to the fit
    found on a toile, by garment and adjustment.
    """

    name: str
    measurements_mm: Mapping[str, float] = field(default_factory=dict)
    body: str | None = None
    measured_on: str = ""
    earlier: tuple[MeasureSet, ...] = ()
    adjustments_mm: Mapping[str, Mapping[str, float]] = field(default_factory=dict)

    def as_measured(self, day: str) -> Person | None:
        """The same person by the measurements of an earlier day; None when there are none."""
        if day == self.measured_on:
            return self
        found = next((s for s in self.earlier if s.measured_on == day), None)
        if found is None:
            return None
        return replace(self, measurements_mm=found.measurements_mm, measured_on=day)

    def changed_mm(self) -> dict[str, float]:
        """What each measurement grew by since the set before, where it changed."""
        if not self.earlier:
            return {}
        before = self.earlier[-1].measurements_mm
        return {
            name: mm - before[name] for name, mm in self.measurements_mm.items()
            if name in before and abs(mm - before[name]) > 1e-9
        }
