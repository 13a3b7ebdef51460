"""What a draft is: the measurements it asks for, the options it takes, and its steps.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from stash.draft.body import Body, term
from stash.draft.option import Choice, Measure, Option, Options, choice, fit, measure, seam_of
from stash.errors import InvalidInput
from stash.fact import Term
from stash.model import Pattern

__all__ = [
    "Allowances", "Choice", "Finish", "Garment", "Measure", "Option", "Options", "Sewn",
    "allowances", "choice", "fit", "hem", "measure", "seam_of",
]

Finish = Literal["overlock", "overlock-4", "zigzag", "turned", "bound"]


def hem(default_mm: float) -> Any:
    """The hem allowance, with the garment's own default."""
    return measure("hem allowance", 0, 120, default_mm)


@dataclass(frozen=True, kw_only=True)
class Sewn(Options):
    """What everything sewn together has: allowances, and raw edges to finish."""

    seam: float = measure("seam allowance", 0, 30, 15.0)
    hem: float = hem(25.0)
    finish: Finish = choice(Finish, "how raw edges are finished")


@dataclass(frozen=True, kw_only=True)
class Garment:
    """One garment that can be drafted.

    ``measurements`` must be known (one of the words joined by "|" is enough);
    ``estimates`` are taken from the body table when they are not given. ``draft``
    gets the completed body and every option, of the type ``takes``.
    """

    name: str
    title: str
    measurements: tuple[str, ...]
    estimates: tuple[str, ...]
    takes: type[Options]
    draft: Callable[[Body, Any], Pattern]

    @property
    def options(self) -> tuple[Option, ...]:
        """What can be chosen."""
        return self.takes.all()

    def ask_for(self, measurements_mm: Mapping[str, float]) -> None:
        """InvalidInput names the first needed measurement that is not among those given."""
        for needed in self.measurements:
            either = needed.split("|")
            if not any(name in measurements_mm for name in either):
                raise InvalidInput(
                    "measurement_wanted" if len(either) == 1 else "either_measurement_wanted",
                    garment=Term(self.title), measure=term(either[0]),
                    other=term(either[-1]), field=either[0],
                )

    def read_options(self, given: Mapping[str, object]) -> Options:
        """Every option of the garment, checked, defaults filled in."""
        return self.takes.read(given, self.title)


@dataclass(frozen=True)
class Allowances:
    """What is allowed beyond the stitching line: seams, hem, and edges with their own, mm."""

    seam: float
    hem: float
    own: Mapping[str, float] = field(default_factory=dict)

    def at(self, edge: str) -> float:
        """The allowance of one edge: its own where it has one, else the seam's."""
        return self.own.get(edge, self.seam)


def allowances(options: Sewn) -> Allowances:
    """The allowances that a garment's options ask for."""
    values = options.to_json()
    own = {
        o.edge: float(mm)
        for o in options.all()
        if isinstance(o, Measure) and o.edge and isinstance(mm := values[o.name], int | float)
    }
    return Allowances(options.seam, options.hem, own)
