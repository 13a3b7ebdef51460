"""Why a piece cannot be drawn: the one option or measurement without which it could be.

A person who asked for trousers of 50 cm is told of the length, not of her hips: each choice
of hers is left out in turn, then each measurement that can be estimated instead.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeVar

from stash.draft.body import term
from stash.draft.garment import Garment
from stash.draft.soundness import broken
from stash.errors import InvalidInput
from stash.fact import Fact, Term, fact
from stash.model import Pattern

V = TypeVar("V")
Drafting = Callable[[Mapping[str, float], Mapping[str, object]], Pattern]


def refusal(
    garment: Garment, piece: str, drawn: Drafting, measured: Mapping[str, float],
    options: Mapping[str, object],
) -> InvalidInput:
    """The error that names the piece, and what to change."""
    cause = _option(drawn, measured, options) or _measurement(garment, drawn, measured, options)
    if cause is None:
        blamed = tuple(_measured(n, mm) for n, mm in measured.items()) or _chosen_all(options)
        field = next(iter(measured), None) or next(iter(options), None)
    else:
        blamed, field = (cause[1],), cause[0]
    return InvalidInput(
        "piece_cannot_be_drawn", garment=Term(garment.title), piece=piece, because=blamed,
        field=field,
    )


def _option(
    drawn: Drafting, measured: Mapping[str, float], options: Mapping[str, object]
) -> tuple[str, Fact] | None:
    for name, value in options.items():
        if value is not None and _sound(drawn, measured, _without(options, name)):
            return name, _chosen(name, value)
    return None


def _measurement(
    garment: Garment, drawn: Drafting, measured: Mapping[str, float], options: Mapping[str, object]
) -> tuple[str, Fact] | None:
    needed = {n for m in garment.measurements for n in m.split("|")}
    for name, mm in measured.items():
        if name not in needed and _sound(drawn, _without(measured, name), options):
            return name, _measured(name, mm)
    return None


def _sound(
    drawn: Drafting, measured: Mapping[str, float], options: Mapping[str, object]
) -> bool:
    try:
        return not broken(drawn(measured, options))
    except InvalidInput:
        return False


def _without(values: Mapping[str, V], name: str) -> dict[str, V]:
    return {k: v for k, v in values.items() if k != name}


def _chosen_all(options: Mapping[str, object]) -> tuple[Fact, ...]:
    return tuple(_chosen(name, value) for name, value in options.items() if value is not None)


def _chosen(name: str, value: object) -> Fact:
    if isinstance(value, int | float):
        return fact("option_chosen_mm", option=name, chosen_measure_mm=float(value))
    return fact("option_chosen", option=name, chosen=str(value))


def _measured(name: str, mm: float) -> Fact:
    return fact("measurement_given", measure=term(name), given_measure_mm=mm)
