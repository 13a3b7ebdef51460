"""What a draft is: the measurements it asks for, the options it takes, and its steps."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from math import isfinite

from stash.draft.body import Body
from stash.errors import InvalidInput
from stash.model import Pattern
from stash.quantity import Quantity, read_length_or_nothing
from stash.units import format_length


@dataclass(frozen=True, kw_only=True)
class Measure:
    """An option that is a length in mm; ``default`` None is worked out by the draft."""

    name: str
    about: str
    least_mm: float
    most_mm: float
    default: float | None = None

    def read(self, value: object) -> float:
        """The option's value in mm from a number of mm or text with a unit."""
        mm = self._mm(value)
        if not (isfinite(mm) and self.least_mm <= mm <= self.most_mm):
            raise InvalidInput(
                f"The option {self.name} can be from {format_length(self.least_mm)} to "
                f"{format_length(self.most_mm)}.",
                field=self.name,
            )
        return round(mm, 6)  # no ruler is finer; the least float is no length

    def _mm(self, value: object) -> float:
        if isinstance(value, int | float) and not isinstance(value, bool):
            return float(value)
        return read_length_or_nothing(str(value), Quantity.PATTERN, field=self.name)

    def to_json(self) -> dict:
        """Its name, meaning, range and default."""
        return {"name": self.name, "about": self.about, "least_mm": self.least_mm,
                "most_mm": self.most_mm, "default_mm": self.default}


@dataclass(frozen=True, kw_only=True)
class Choice:
    """An option that is one of a few words; the first is the default."""

    name: str
    about: str
    words: tuple[str, ...]

    @property
    def default(self) -> str:
        """The word taken when nothing is chosen."""
        return self.words[0]

    def read(self, value: object) -> str:
        """The chosen word."""
        word = str(value).strip().lower()
        if word not in self.words:
            raise InvalidInput(
                f"The option {self.name} can be {' or '.join(self.words)}, not “{value}”.",
                field=self.name,
            )
        return word

    def to_json(self) -> dict:
        """Its name, meaning, words and default."""
        return {"name": self.name, "about": self.about, "words": list(self.words),
                "default": self.default}


Option = Measure | Choice
Options = Mapping[str, object]


@dataclass(frozen=True, kw_only=True)
class Garment:
    """One garment that can be drafted.

    ``measurements`` must be known (one of the words joined by "|" is enough);
    ``estimates`` are taken from the body table when they are not given. ``draft``
    gets the completed body and every option with its default filled in.
    """

    name: str
    title: str
    measurements: tuple[str, ...]
    estimates: tuple[str, ...]
    options: tuple[Option, ...]
    draft: Callable[[Body, Options], Pattern]

    def ask_for(self, measurements_mm: Mapping[str, float]) -> None:
        """InvalidInput names the first needed measurement that is not among those given."""
        for needed in self.measurements:
            if not any(name in measurements_mm for name in needed.split("|")):
                said = " or ".join(needed.split("|")).replace("_", " ")
                raise InvalidInput(
                    f"{self.title}: the {said} is needed; please measure it.",
                    field=needed.split("|")[0],
                )

    def read_options(self, given: Mapping[str, object]) -> dict[str, object]:
        """Every option of the garment, checked, defaults filled in."""
        known = {o.name: o for o in self.options}
        for name in given:
            if name not in known:
                raise InvalidInput(
                    f"The {self.title.lower()} has no option “{name}”; it takes: "
                    f"{', '.join(known) or 'none'}.",
                    field=name,
                )
        return {
            name: option.read(given[name]) if given.get(name) is not None else option.default
            for name, option in known.items()
        }


SEAM = Measure(name="seam", about="seam allowance", least_mm=0, most_mm=30, default=15.0)


def seam_of(edge: str) -> Measure:
    """The allowance of one edge, where it is to differ from the others'."""
    return Measure(
        name=f"seam_{edge.replace(' ', '_')}", about=f"allowance at the {edge} alone",
        least_mm=0, most_mm=50,
    )


@dataclass(frozen=True)
class Allowances:
    """What is allowed beyond the stitching line: seams, hem, and edges with their own, mm."""

    seam: float
    hem: float
    own: Mapping[str, float] = field(default_factory=dict)

    def at(self, edge: str) -> float:
        """The allowance of one edge: its own where it has one, else the seam's."""
        return self.own.get(edge, self.seam)


def allowances(options: Options) -> Allowances:
    """The allowances that a garment's options ask for."""
    own = {
        name.removeprefix("seam_").replace("_", " "): float(mm)
        for name, mm in options.items()
        if name.startswith("seam_") and mm is not None
    }
    return Allowances(float(options["seam"]), float(options["hem"]), own)


FINISH = Choice(
    name="finish", about="how raw edges are finished",
    words=("overlock", "overlock-4", "zigzag", "turned", "bound"),
)


ELASTIC_HOLD = Choice(
    name="elastic", about="how close the elastic of the waist is cut", words=("usual", "tight")
)


def hem(default_mm: float) -> Measure:
    """The hem allowance, with the garment's own default."""
    return Measure(name="hem", about="hem allowance", least_mm=0, most_mm=120, default=default_mm)
