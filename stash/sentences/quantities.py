"""A value as it is said: the unit is in its name, the way of writing is the reader's."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import ceil, isfinite

from stash import units
from stash.model import FibreShare
from stash.quantity import Quantity, show_length
from stash.sentences.manner import in_the_manner_of
from stash.sentences.reader import Reader
from stash.sentences.translations import translated

Writer = Callable[[float, Reader], str]


def length(mm: float, reader: Reader) -> str:
    """A length at the cutting table."""
    return units.format_length(mm, reader.system)


def cloth(mm: float, reader: Reader) -> str:
    """How much cloth: centimetres however little, an inch's eighths, from a metre on metres.

    Under an eighth of an inch it is sixteenths, and never nothing of something.
    """
    if abs(mm) >= 100:
        return length(mm, reader)
    if reader.system is units.System.INCHES and 0 < abs(mm) < EIGHTH_MM:
        return units.format_small(max(mm, EIGHTH_MM / 2), reader.system)
    return units.format_tape(mm, reader.system)


def spare(mm: float, reader: Reader) -> str:
    """What is left over: nobody counts on its millimetres, nor is more promised than there is."""
    if reader.system is units.System.METRIC and mm >= 100:
        return length(mm // 10 * 10, reader)
    return cloth(mm, reader)


def width(mm: float, reader: Reader) -> str:
    """A width of cloth, as shops print it."""
    return units.format_width(mm, reader.system)


def tape(mm: float, reader: Reader) -> str:
    """What a tape measures on a body or a pattern: never metres, never yards."""
    return units.format_tape(mm, reader.system)


def small(mm: float, reader: Reader) -> str:
    """A margin, the width of a tape, a label."""
    return units.format_small(mm, reader.system)


def error(mm: float, reader: Reader) -> str:
    """How far a length may be out."""
    return units.format_error(mm, reader.system)


def small_error(mm: float, reader: Reader) -> str:
    """How far what is told to a tenth of a millimetre may be out."""
    return units.format_error(mm, reader.system, fine=True)


def mass_error(gsm: float, reader: Reader) -> str:
    """How far the weight of a cloth may be out."""
    return units.format_mass(units.significant(gsm), reader.system)


def share_error(value: float, reader: Reader) -> str:
    """By what share a figure may be out."""
    return percent(units.significant(value), reader)


def mass(gsm: float, reader: Reader) -> str:
    """The weight of a cloth."""
    return units.format_mass(gsm, reader.system)


def area(mm2: float, reader: Reader) -> str:
    """An area of cloth: 0.600 m² or 0.718 yd²."""
    if reader.system is units.System.INCHES:
        return f"{mm2 / units.YARD_MM**2:.3f} yd²"
    return f"{mm2 / 1e6:.3f} m²"


def percent(value: float, reader: Reader) -> str:
    """A share: 5 %."""
    return f"{value:g} %"


def turn(degrees: float, reader: Reader) -> str:
    """How far a piece is turned."""
    return units.format_turn(degrees)


def thread(mm: float, reader: Reader) -> str:
    """A length of thread: nobody winds off centimetres of it."""
    if reader.system is units.System.METRIC:
        return f"{ceil(mm / 1000)} m"
    return f"{ceil(mm / units.YARD_MM)} yd"


def wound(mm: float, reader: Reader) -> str:
    """Thread of one seam or of a spool."""
    return units.format_wound(mm, reader.system)


def button(mm: float, reader: Reader) -> str:
    """A button's diameter in millimetres and lignes."""
    return units.format_button(mm)


def whole(value: float, reader: Reader) -> str:
    """A number of which only the whole matters."""
    return f"{value:.0f}" if isfinite(value) else "countless"


def number(value: float, reader: Reader) -> str:
    """A plain number; a whole one with all its digits."""
    return f"{value:,.0f}" if value.is_integer() and abs(value) < 1e15 else f"{value:g}"


USUAL = {"flax": "linen"}
EIGHTH_MM = units.INCH_MM / 8

def signed(mm: float, reader: Reader) -> str:
    """By how much a measure is longer or shorter: +2 cm, −2 cm."""
    return f"+{tape(mm, reader)}" if mm > 0 else tape(mm, reader)


# The first ending that fits wins: what cloth is laid, cut off or missing is never millimetres.
BY_ENDING: dict[str, Writer] = {
    "error_small_mm": small_error, "error_mm": error, "error_gsm": mass_error,
    "error_pct": share_error,
    "_signed_mm": signed, "spare_mm": spare, "short_mm": cloth, "saves_mm": cloth,
    "left_mm": cloth, "length_mm": cloth, "used_mm": cloth, "less_mm": cloth,
    "along_mm": cloth, "across_mm": cloth, "needed_mm": cloth, "there_mm": cloth,
    "value_mm": cloth, "most_mm": cloth, "repeat_mm": cloth, "seam_mm": cloth,
    "over_mm": cloth, "below_mm": cloth, "cloth_mm": cloth,
    "wound_mm": wound, "thread_mm": thread,
    "width_mm": width, "measure_mm": tape, "small_mm": small,
    "paper_mm": small, "ruler_mm": small, "diameter_mm": button, "_mm2": area, "_mm": length,
    "mass_gsm": mass, "_gsm": mass, "_pct": percent, "_deg": turn, "_mb": whole,
    "megapixels": whole,
}


def written(name: str, value: float, reader: Reader) -> str:
    """One number, written by the ending of its name."""
    write = next((w for ending, w in BY_ENDING.items() if name.endswith(ending)), number)
    return in_the_manner_of(write(value, reader), reader)


def shown(mm: float, quantity: Quantity, reader: Reader) -> str:
    """A length of one kind, always in its own unit, in the reader's manner."""
    return in_the_manner_of(show_length(mm, quantity, reader.system), reader)


def composition(shares: Iterable[FibreShare], reader: Reader) -> str:
    """"55 % linen, 45 % cotton": in descending order, by the names people use.

    The law's name of linen is flax; a sewist's is linen.
    """
    ordered = sorted(shares, key=lambda share: -share.percent)
    said = (f"{share.percent:g} % {fibre(share.fibre, reader)}" for share in ordered)
    return in_the_manner_of(", ".join(said), reader)


def fibre(name: str, reader: Reader) -> str:
    """A fibre by the name people use."""
    return translated(USUAL.get(name, name), reader.language)
