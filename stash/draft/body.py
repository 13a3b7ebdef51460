"""A body: what was measured, and what an open body table says about the rest.

The measurements, their terms (ISO 8559 where one exists), how they are taken and what
range a body can have are ``stash/reference/measurements.csv``; values here are mm.
``chest`` is another word for bust. What was not measured comes from
``stash.draft.body_table``. The true measurement, once taken, always wins.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from math import isfinite

from stash.draft import body_table
from stash.draft.whose_table import BODIES, TableChoice, Why, likely_table
from stash.errors import InvalidInput
from stash.fact import Fact, Term, fact
from stash.reference import table

TERMS = {row["measure"]: row for row in table("measurements")}
RANGE_MM = {
    name: (float(row["least_cm"]) * 10, float(row["most_cm"]) * 10) for name, row in TERMS.items()
}


@dataclass(frozen=True, kw_only=True)
class Body:
    """Measurements in mm, which of them are estimates, and whose table they came from.

    ``beyond`` names the estimates for which this body lies outside its table, so that
    they follow the table's trend; ``table`` says why that table serves.
    """

    values: Mapping[str, float]
    estimated: tuple[str, ...] = ()
    table: TableChoice = TableChoice("women", Why.USUAL, False)
    beyond: tuple[str, ...] = ()
    given: frozenset[str] = field(default_factory=frozenset)

    def __getitem__(self, name: str) -> float:
        return self.values[name]

    @property
    def kind(self) -> str:
        """Whose table: "women", "men" or "children"."""
        return self.table.kind

    @property
    def is_child(self) -> bool:
        """True when the children's table served."""
        return self.kind == "children"


def complete(
    measurements_mm: Mapping[str, float], wanted: Iterable[str], body: str | None = None
) -> Body:
    """The measurements with every ``wanted`` one filled in.

    ``body`` names the table ("women", "men", "children"); None lets the measurements
    decide. InvalidInput names a measurement that no body has, or that is missing
    with nothing to estimate it from.
    """
    given = check(measurements_mm)
    if body is not None and body not in BODIES:
        raise InvalidInput("body_unknown", either_body=BODIES, typed=body, field="body")
    whose = TableChoice(body, Why.SAID, True) if body else likely_table(
        given, said_chest="chest" in measurements_mm
    )
    values = dict(given)
    missing = [name for name in dict.fromkeys(wanted) if name not in given]
    beyond: tuple[str, ...] = ()
    if missing:
        whole = body_table.estimate(whose.kind, given)
        values |= {name: whole[name] for name in missing}
        beyond = tuple(n for n in missing if n in body_table.beyond(whose.kind, given))
    if "bust" in values:
        values["chest"] = values["bust"]
    return Body(
        values=values, estimated=tuple(missing), table=whose, beyond=beyond,
        given=frozenset(given),
    )


def check(measurements_mm: Mapping[str, float]) -> dict[str, float]:
    """Measurements by their own names, each one that a body can have."""
    checked: dict[str, float] = {}
    for name, value in measurements_mm.items():
        key = "bust" if name == "chest" else name
        if key not in RANGE_MM:
            raise InvalidInput(_unknown(name), field=name)
        if key in checked and name == "chest":
            continue
        least, most = RANGE_MM[key]
        if not (isfinite(value) and least <= value <= most):
            raise InvalidInput(
                "measurement_impossible" if isfinite(value) else "measurement_no_number",
                measure=term(name), given_measure_mm=value, least_measure_mm=least,
                most_measure_mm=most, field=name,
            )
        checked[key] = float(value)
    _check_together(checked)
    return checked


def _unknown(name: str) -> Fact:
    """What a name that is no measurement was perhaps meant to be, or all there are."""
    known = [*RANGE_MM, "chest"]
    typed = name.replace("_", " ")
    if near := get_close_matches(name, known, n=1, cutoff=0.7):
        return fact("measurement_misspelt", typed=typed, meant=term(near[0]))
    return fact("measurement_unknown", typed=typed, known=tuple(known))


def _check_together(given: Mapping[str, float]) -> None:
    """Pairs that cannot belong to one body."""
    for name, other, least, most in (
        ("waist", "hip", 0.5, 1.35), ("thigh", "hip", 0.4, 0.8),
        ("inside_leg", "height", 0.28, 0.6),
        ("neck_base", "bust", 0.22, 0.65), ("upper_arm", "bust", 0.18, 0.5),
    ):
        if name in given and other in given:
            low, high = given[other] * least, given[other] * most
            if not low <= given[name] <= high:
                raise InvalidInput(
                    "measurements_apart", measure=term(name), given_measure_mm=given[name],
                    other=term(other), other_measure_mm=given[other], least_measure_mm=low,
                    most_measure_mm=high, field=name,
                )


def word(name: str) -> str:
    """A measurement's name as it is said."""
    if name == "chest":
        return name
    return TERMS[name]["said"] if name in TERMS else name.replace("_", " ")


def term(name: str) -> Term:
    """A measurement's name as a word of the trade."""
    return Term(word(name))


def how(name: str) -> str:
    """How the measurement is taken, in a few words."""
    return TERMS["bust" if name == "chest" else name]["how"]
