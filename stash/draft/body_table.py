"""Reading the body tables: the row between the rows that a known girth falls in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from stash.errors import InvalidInput
from stash.reference import table

KEYS = ("hip", "bust", "waist", "height")
UPPER = ("neck_base", "back_width", "upper_arm", "arm_length")
LENGTHS = ("inside_leg", "back_waist", "arm_length", "body_rise", "waist_to_hip", "foot_entry")


def estimate(kind: str, given: Mapping[str, float]) -> dict[str, float]:
    """Every measurement of the body table, mm, from what is given; given ones as they are.

    The row is found by the first of hip, bust, waist (for children: height first);
    what hangs from the shoulders is read from the bust's row when the bust is known.
    Beyond the first and last rows girths go on in proportion and lengths stay.
    A given height stretches the lengths in proportion.
    """
    order = ("height", *KEYS) if kind == "children" else KEYS[:3]
    key = next((k for k in order if k in given), None)
    if key is None:
        raise InvalidInput(
            "Too little is known of this body: measure at least the hip, or the bust or chest.",
            field="hip",
        )
    rows = _rows(kind)
    whole = _row_at(rows, key, given[key])
    if "bust" in given and key != "height":
        by_bust = _row_at(rows, "bust", given["bust"])
        whole |= {name: by_bust[name] for name in UPPER}
    whole |= _derived(kind, whole | given)
    if "height" in given and key != "height":
        stretch = given["height"] / whole["height"]
        whole |= {name: whole[name] * stretch for name in LENGTHS}
    return whole | given


def thigh_p95(kind: str, hip_mm: float) -> float:
    """The 95th percentile thigh girth of bodies with this hip, mm.

    ANSUR II's 95th percentile of thigh over hip; for children the women's figure.
    """
    share = _percentiles(kind)["thigh_over_hip_pct"]["p95"]
    return hip_mm * share / 100


def percentile(kind: str, name: str, which: str) -> float:
    """One published percentile ("p05" to "p95") of a measurement, mm."""
    return _percentiles(kind)[name][which] * 10


@cache
def _rows(kind: str) -> tuple[dict[str, float], ...]:
    name = "bodies_children" if kind == "children" else "bodies_adult"
    return tuple(
        {
            column.removesuffix("_cm"): float(text) * 10
            for column, text in row.items()
            if column.endswith("_cm")
        }
        for row in table(name)
        if row["body"] == kind
    )


@cache
def _percentiles(kind: str) -> dict[str, dict[str, float]]:
    body = "men" if kind == "men" else "women"
    return {
        row["measurement"]: {p: float(row[f"{p}_cm"]) for p in ("p05", "p25", "p50", "p75", "p95")}
        for row in table("bodies_percentiles")
        if row["body"] == body
    }


def _row_at(rows: Sequence[dict[str, float]], key: str, mm: float) -> dict[str, float]:
    ordered = sorted(rows, key=lambda row: row[key])
    first, last = ordered[0], ordered[-1]
    if mm <= first[key] or mm >= last[key]:
        end = first if mm <= first[key] else last
        grow = mm / end[key]
        still = ("height", "head", *LENGTHS) if key != "height" else ()
        return {name: v if name in still else v * grow for name, v in end.items()}
    upper = next(i for i, row in enumerate(ordered) if row[key] > mm)
    below, above = ordered[upper - 1], ordered[upper]
    part = (mm - below[key]) / (above[key] - below[key])
    return {name: below[name] + (above[name] - below[name]) * part for name in below}


def scye_depth(bust_mm: float) -> float:
    """From the nape to the armpit level: 0.2 of the chest and 4.4 cm, mm.

    The rule is a hobby shirt block's (sourced, weak). Above a chest of 100 cm the depth
    grows by 0.07 of it only, as ANSUR II's cervicale-to-axilla height does by hip band.
    """
    return 0.2 * min(bust_mm, 1000.0) + 44 + 0.07 * max(0.0, bust_mm - 1000.0)


def _derived(kind: str, known: Mapping[str, float]) -> dict[str, float]:
    """Measurements no row holds, from those that one does."""
    derived = {
        "scye_depth": scye_depth(known["bust"]),
    }
    if kind == "children":
        women = _percentiles("women")
        tall = known["height"] / (women["height"]["p50"] * 10)
        # Children: adult medians scaled by height; no table of these was found.
        return derived | {
            "waist_to_hip": women["waist_to_hip"]["p50"] * 10 * tall,
            "foot_entry": women["foot_entry"]["p95"] * 10 * tall,
            "thigh": known["hip"] * women["thigh_over_hip_pct"]["p50"] / 100,
            "crotch_length": 0.61 * known["hip"],
        }
    medians = {n: p["p50"] * 10 for n, p in _percentiles(kind).items()}
    return derived | {
        "back_waist": medians["back_waist"], "shoulder": medians["shoulder"],
        "wrist": medians["wrist"], "waist_to_hip": medians["waist_to_hip"],
        "foot_entry": percentile(kind, "foot_entry", "p95"),
        # ASTM D5585-11e1: women's head girth 21.25 to 22.5 in; men's: from memory, 57 cm
        "head": 570.0 if kind == "men" else 560.0,
    }
