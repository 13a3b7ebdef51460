"""The one table of quantities: what a bare number of each means, and in what it is shown.

Every command, form and file reads lengths through :func:`read_length` and shows them
through :func:`show_length`, naming which kind of length it is. So ``114`` is the same width
wherever it is typed, a hip is never shown in yards, and a column of a table has one unit.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from stash import units
from stash.errors import InvalidInput
from stash.units import System


class Shown(Enum):
    """The units a kind of length is shown in: metric, and inches."""

    ROLL = "m or yd"
    TAPE = "cm or in, to an eighth"
    SMALL = "mm or in, to a sixteenth"
    BUTTON = "mm and lignes"
    WOUND = "whole m or yd"
    ANY = "whatever reads best"


@dataclass(frozen=True)
class UnitRule:
    """``bare`` is the unit that a bare number takes; None means that it is asked for."""

    bare: str | None
    shown: Shown
    example: str
    example_in: str


PRICED_MM = {System.METRIC: 1000.0, System.INCHES: 914.4}
"""The length whose price a shop tells: a metre, or a yard."""


class Quantity(Enum):
    """Every kind of length a person types.

    A bare number is centimetres wherever cloth, bodies and patterns are measured. It is
    asked for where two units are as usual as each other: a button is 15 mm or 24 lignes, a
    margin 5 mm or half a centimetre,
    elastic 20 mm or 2 cm and so many centimetres or metres of it, thread a metre or a
    reel, cloth on a pattern's envelope in metres or yards. Paper and stitches are millimetres
    (common practice, no source: label sheets and machine dials are marked so).
    """

    CUT_LENGTH = UnitRule("cm", Shown.ROLL, "1.5 m", "1 1/2 yd")
    PRINTED_LENGTH = UnitRule(None, Shown.ROLL, "2.5 m", "2 3/4 yd")
    WIDTH = UnitRule("cm", Shown.TAPE, "114 cm", "45 in")
    REPEAT = UnitRule("cm", Shown.TAPE, "32 cm", "12 5/8 in")
    BODY = UnitRule("cm", Shown.TAPE, "104.5 cm", "41 1/8 in")
    PATTERN = UnitRule("cm", Shown.TAPE, "62 cm", "24 1/2 in")
    MARGIN = UnitRule(None, Shown.SMALL, "1.5 cm", "5/8 in")
    STEP = UnitRule("cm", Shown.ANY, "10 cm", "1/8 yd")
    ZIP = UnitRule("cm", Shown.TAPE, "22 cm", "9 in")
    TAPE_LENGTH = UnitRule(None, Shown.ROLL, "3.5 m", "4 yd")
    TAPE_WIDTH = UnitRule(None, Shown.SMALL, "20 mm", "3/4 in")
    THREAD_LENGTH = UnitRule(None, Shown.WOUND, "200 m", "220 yd")
    BUTTON = UnitRule(None, Shown.BUTTON, "15 mm", "24L")
    RULER = UnitRule(None, Shown.SMALL, "100 mm", "4 in")
    PAPER = UnitRule("mm", Shown.SMALL, "62 mm", "2 1/4 in")
    STITCH = UnitRule("mm", Shown.SMALL, "2.5 mm", "1/8 in")

    @property
    def bare(self) -> str | None:
        """The unit of a bare number; None where it must be said."""
        return self.value.bare

    def example(self, system: System) -> str:
        """How such a length is typed."""
        return self.value.example_in if system is System.INCHES else self.value.example


NOTHING = re.compile(r"\s*0+(?:[.,]0*)?\s*[a-z\"”″]*\s*", re.IGNORECASE)


def read_length(
    text: str, quantity: Quantity, *, field: str = "length", system: System = System.METRIC
) -> float:
    """Millimetres of a length of this kind.

    For someone who reads inches (``system``) a bare number is always asked for its unit:
    45 would be centimetres to the record and inches to her. Raises InvalidInput.
    """
    bare = quantity.bare if system is System.METRIC else None
    return units.parse_length(text, unit=bare, field=field, example=quantity.example(system))


SHORTEST_BARE_CM = 10.0
"""Under this a bare number of a whole cut is asked back (a choice of ours): 3 is written for
3 m, and read as 3 cm it would be a lie on record that nobody sees."""
_BARE = re.compile(r"\s*\d+(?:[.,]\d+)?\s*")


def read_new_length(
    text: str, *, field: str = "length", system: System = System.METRIC
) -> float:
    """Millimetres of all there is of a cut, for one that comes on record or is measured again.

    Raises InvalidInput as :func:`read_length`, and for a bare number so small that metres
    may be meant.
    """
    length_mm = read_length(text, Quantity.CUT_LENGTH, field=field, system=system)
    if _BARE.fullmatch(text) and length_mm < SHORTEST_BARE_CM * 10:
        raise InvalidInput("centimetres_or_metres", typed=text.strip(), field=field)
    return length_mm


def read_length_or_nothing(
    text: str, quantity: Quantity, *, field: str = "length", system: System = System.METRIC
) -> float:
    """As :func:`read_length`; 0, with or without a unit, is nothing."""
    if NOTHING.fullmatch(text):
        return 0.0
    return read_length(text, quantity, field=field, system=system)


def read_size(
    text: str, along: Quantity, across: Quantity, *, field: str = "size"
) -> tuple[float, float]:
    """(length_mm, width_mm) from "150x114" or "1.5 m x 45 in"; a side of 0 is nothing."""
    sides = units.sides(text, field=field)
    return (
        read_length_or_nothing(sides[0], along, field=field),
        read_length_or_nothing(sides[1], across, field=field),
    )


def read_cut_size(text: str, *, field: str = "size") -> tuple[float, float]:
    """(length_mm, width_mm) of a cut, both of them something."""
    along, across = units.sides(text, field=field)
    return (
        read_new_length(along, field=field),
        read_length(across, Quantity.WIDTH, field=field),
    )


def listed(text: str) -> list[str]:
    """The parts of a list: "90cm,115cm" or, with decimal commas, "1,15 m; 1,40 m"."""
    apart = r";|,\s" if re.search(r";|,\s", text) else r","
    return [part.strip() for part in re.split(apart, text) if part.strip()]


def show_length(mm: float, quantity: Quantity, system: System) -> str:
    """A length of this kind, always in the same unit, as the kind is sold or measured."""
    match quantity.value.shown:
        case Shown.ROLL:
            return units.format_roll(mm, system)
        case Shown.TAPE:
            return units.format_tape(mm, system)
        case Shown.SMALL:
            return units.format_small(mm, system)
        case Shown.BUTTON:
            return units.format_button(mm)
        case Shown.WOUND:
            return units.format_wound(mm, system)
        case _:
            return units.format_length(mm, system)
