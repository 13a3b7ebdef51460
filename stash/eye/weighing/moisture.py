"""The water that cloth takes up from the air, and how far it moves what a scale says."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

SWING = 0.22
"""Of the agreed allowance, to either side, from a dry room to a damp one (nineteen in twenty);
cotton then moves by 2 % and wool by 3.5 %. Common practice, no source."""
UNKNOWN_PCT = 12.0


@cache
def allowances_pct() -> Mapping[str, float]:
    """Water over dry mass by fibre, from allowances.csv."""
    text = files(__package__).joinpath("allowances.csv").read_text(encoding="utf-8")
    return {row["fibre"]: float(row["allowance_pct"]) for row in csv.DictReader(text.splitlines())}


def moisture_share(fibres: Mapping[str, float]) -> float:
    """Two standard errors of one weighing by moisture, as a share of the mass.

    ``fibres`` are per cents by name; what is not known is taken for a fibre that drinks much.
    """
    known = allowances_pct()
    total = sum(fibres.values())
    if not total:
        return SWING * UNKNOWN_PCT / (100 + UNKNOWN_PCT)
    water = sum(known.get(name, UNKNOWN_PCT) * share for name, share in fibres.items()) / total
    return SWING * water / (100 + water)
