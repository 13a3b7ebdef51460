"""Values as the command line writes them, for whom the command that runs now answers."""

from __future__ import annotations

from stash.cli.frame import reader
from stash.cli.words import _
from stash.fact import Fact
from stash.model import Cloth, Notion, NotionKind
from stash.model.amounts import AMOUNT, SIZE
from stash.quantity import Quantity
from stash.sentences import named, quantities, say
from stash.sentences.manner import day, minute


def labelled(code: str) -> str:
    """A code beside the name of what bears it."""
    return named(code, reader())


def length(mm: float) -> str:
    """A length as it is said at the cutting table."""
    return quantities.written("_mm", mm, reader())


def cut_length(mm: float) -> str:
    """A length off the roll."""
    return quantities.shown(mm, Quantity.CUT_LENGTH, reader())


def error(mm: float) -> str:
    """How far a length may be out."""
    return quantities.written("error_mm", mm, reader())


def width(mm: float) -> str:
    """A width of cloth."""
    return quantities.written("width_mm", mm, reader())


def tape(mm: float) -> str:
    """What a tape measures on a body or a pattern."""
    return quantities.shown(mm, Quantity.PATTERN, reader())


def mass(gsm: float) -> str:
    """The weight of a cloth."""
    return quantities.written("_gsm", gsm, reader())


def size(length_mm: float, width_mm: float) -> str:
    """A cut: its length by its width."""
    return f"{cut_length(length_mm)} x {width(width_mm)}"


def piece_size(length_mm: float, width_mm: float) -> str:
    """A piece: how far it reaches along the grain, by how far across."""
    return f"{tape(length_mm)} x {tape(width_mm)}"


def amount(kind: NotionKind, value: float) -> str:
    """A count of things, or a length of tape."""
    return f"{value:g}" if kind.counted else quantities.shown(value, AMOUNT[kind], reader())


def needed(kind: NotionKind, value: float) -> str:
    """How much of a bin is held: of thread whole metres, since nobody winds off less."""
    if kind is NotionKind.THREAD:
        return quantities.written("thread_mm", value, reader())
    return amount(kind, value)


def size_of(kind: NotionKind, mm: float) -> str:
    """The size of one kind of notion."""
    return quantities.shown(mm, SIZE[kind], reader())


def notion_size(notion: Notion) -> str:
    """A notion's size in its trade's unit; empty where it has none."""
    return "" if notion.size_mm is None else size_of(notion.kind, notion.size_mm)


def turn(degrees: float) -> str:
    """How far a piece is turned."""
    return quantities.written("_deg", degrees, reader())


def share(of_one: float) -> str:
    """A share of a whole, in whole per cent: 53 %."""
    return quantities.written("_pct", round(100 * of_one), reader())


def on_day(moment: str) -> str:
    """The day of an ISO date or moment."""
    return day(moment, reader())


def at_minute(moment: str) -> str:
    """The day and the minute of an ISO moment."""
    return minute(moment, reader())


def fibres(cloth: Cloth) -> str:
    """The composition: "55 % linen, 45 % cotton"."""
    return quantities.composition(cloth.fibres, reader())


def of(what: str, told: str) -> str:
    """What is told of something, with the colon as this language sets it."""
    return _("{cut}: {because}", cut=what, because=told)


def fact(told: Fact) -> str:
    """Any fact, said."""
    return say(told, reader())
