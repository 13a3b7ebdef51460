"""How long a roll or a board is, from its turns.

Each turn is as long as its own girth, and the girth grows evenly from the core to the
outside, so length = turns x the mean girth. The thickness of cloth under tension is not
known well enough for a length from the diameters alone (13 to 15 per cent).
"""

from __future__ import annotations

from math import hypot, pi

from stash.errors import InvalidInput
from stash.model.measured import Measured, Origin

TURN_ERROR = 1.0  # turns are counted right within one
TAPE_MM = 3.0  # a diameter or a girth by the tape
SLACK_SHARE = 0.02  # cloth is not wound quite tight (common practice, no source)


def rolled_length(outer_mm: float, core_mm: float, turns: float) -> Measured:
    """turns x pi x (outer + core) / 2, in mm; both are diameters."""
    if not (0 < core_mm < outer_mm <= 2000 and 1 <= turns <= 2000):
        raise InvalidInput("not_a_roll", field="turns")
    return _wound(pi * (outer_mm + core_mm) / 2, pi * hypot(TAPE_MM, TAPE_MM) / 2, turns)


def board_length(outer_girth_mm: float, board_girth_mm: float, turns: float) -> Measured:
    """turns x the mean of the girth outside and that of the bare board, in mm."""
    if not (0 < board_girth_mm <= outer_girth_mm <= 5000 and 1 <= turns <= 2000):
        raise InvalidInput("not_a_board", field="turns")
    mean = (outer_girth_mm + board_girth_mm) / 2
    return _wound(mean, hypot(TAPE_MM, TAPE_MM) / 2, turns)


def _wound(girth_mm: float, girth_error_mm: float, turns: float) -> Measured:
    length = girth_mm * turns
    share = hypot(TURN_ERROR / turns, girth_error_mm / girth_mm, SLACK_SHARE)
    return Measured(value=length, error=share * length, origin=Origin.ROLLED)
