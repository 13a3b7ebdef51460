"""Reading the body tables: the row between the rows that a known girth falls in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from statistics import linear_regression

from stash.errors import InvalidInput
from stash.reference import table

KEYS = ("hip", "bust", "waist", "height")
UPPER = ("neck_base", "back_width", "upper_arm", "arm_length")
LENGTHS = ("inside_leg", "back_waist", "arm_length", "body_rise", "waist_to_hip", "foot_entry")
# Bones: a heavier body beyond the table is no taller. The rise is not one of them: the
# tape of the body rise runs over flesh, and it grows through every row of the tables.
BONES = ("height", "head", "inside_leg", "back_waist", "arm_length", "waist_to_hip", "foot_entry")

# A worked set of leggings' girths: thigh 58, knee 37, ankle 23 cm (computed after
# coolleggings.wordpress.com; the shares are approximate).
KNEE_OVER_THIGH, ANKLE_OVER_THIGH = 37 / 58, 23 / 58


def estimate(kind: str, given: Mapping[str, float]) -> dict[str, float]:
    """Every measurement of the body table, mm, from what is given; given ones as they are.

    The row is found by the first of hip, bust, waist (for children: height first);
    what hangs from the shoulders is read from the bust's row when the bust is known.
    Beyond the last row girths and the rise follow the table's trend, before the first
    one girths shrink in proportion; the lengths of bones stay (see :func:`beyond`).
    A given height stretches the lengths in proportion.
    """
    key = _key(kind, given)
    if key is None:
        raise InvalidInput("body_too_little_known", field="hip")
    rows = _rows(kind)
    whole = _row_at(rows, key, given[key])
    if "bust" in given and key != "height":
        by_bust = _row_at(rows, "bust", given["bust"])
        whole |= {name: by_bust[name] for name in UPPER}
    whole |= _derived(kind, {**whole, **given})
    if "height" in given and key != "height":
        stretch = given["height"] / whole["height"]
        whole |= {name: whole[name] * stretch for name in LENGTHS}
    return {**whole, **given}


def _key(kind: str, given: Mapping[str, float]) -> str | None:
    """The measurement by which the row is found."""
    order = ("height", *KEYS) if kind == "children" else KEYS[:3]
    return next((k for k in order if k in given), None)


def beyond(kind: str, given: Mapping[str, float]) -> frozenset[str]:
    """The measurements for which a body with these lies outside the table's rows."""
    key, rows = _key(kind, given), _rows(kind)
    if key is None:
        return frozenset()
    by_key = frozenset() if _within(rows, key, given[key]) else frozenset(rows[0])
    if "bust" not in given or key == "height":
        return by_key
    by_bust = frozenset() if _within(rows, "bust", given["bust"]) else frozenset(UPPER)
    return (by_key - frozenset(UPPER)) | by_bust


def _within(rows: Sequence[dict[str, float]], key: str, mm: float) -> bool:
    return min(r[key] for r in rows) <= mm <= max(r[key] for r in rows)


def child_girth(height_mm: float, name: str) -> float:
    """A girth ("hip", "bust", "waist") of a child of this height, mm."""
    return _row_at(_rows("children"), "height", height_mm)[name]


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
    if mm <= first[key]:
        return _before(ordered, key, mm)
    if mm >= last[key]:
        return _after(ordered, key, mm)
    upper = next(i for i, row in enumerate(ordered) if row[key] > mm)
    below, above = ordered[upper - 1], ordered[upper]
    part = (mm - below[key]) / (above[key] - below[key])
    return {name: below[name] + (above[name] - below[name]) * part for name in below}


def _before(rows: Sequence[dict[str, float]], key: str, mm: float) -> dict[str, float]:
    """Smaller than the first row: in proportion to it, which never falls below nothing."""
    still = BONES if key != "height" else ()
    share = mm / rows[0][key]
    whole = {n: v if n in still else v * share for n, v in rows[0].items()}
    return whole | {"body_rise": _on_trend(rows, rows[0], key, mm)["body_rise"]}


def _after(rows: Sequence[dict[str, float]], key: str, mm: float) -> dict[str, float]:
    """Larger than the last row: on from it by the trend of all rows."""
    still = BONES if key != "height" else ()
    trend = _on_trend(rows, rows[-1], key, mm)
    return {n: v if n in still else trend[n] for n, v in rows[-1].items()}


def _on_trend(
    rows: Sequence[dict[str, float]], end: dict[str, float], key: str, mm: float
) -> dict[str, float]:
    """From a row at the table's end along the least-squares slope of all its rows.

    All of them, because the last rows are the medians of few bodies (31 women, 27 men).
    """
    keys = [r[key] for r in rows]
    return {
        name: value + linear_regression(keys, [r[name] for r in rows]).slope * (mm - end[key])
        for name, value in end.items()
    }


def crotch_round(kind: str, hip_mm: float, rise_mm: float) -> float:
    """From the front waist between the legs to the back waist, mm, for a body rise.

    ANSUR II tapes it from the navel; what is left of that after both rises from the navel
    runs under the body and is carried up here by both rises to the waist (taken as
    vertical, so approximate). No table of children's was found: theirs is the share of the
    hip that it is of the smallest women.
    """
    rows = _rows("women" if kind == "children" else kind)
    row = rows[0] if kind == "children" else _row_at(rows, "hip", hip_mm)
    under = row["crotch_length"] - 2 * row["rise_navel"]
    return 2 * rise_mm + under * hip_mm / row["hip"]


def scye_depth(bust_mm: float) -> float:
    """From the nape to the armpit level: 0.2 of the chest and 4.4 cm, mm.

    The rule is a hobby shirt block's (sourced, weak). Above a chest of 100 cm the depth
    grows by 0.07 of it only, as ANSUR II's cervicale-to-axilla height does by hip band.
    """
    return 0.2 * min(bust_mm, 1000.0) + 44 + 0.07 * max(0.0, bust_mm - 1000.0)


def _derived(kind: str, known: Mapping[str, float]) -> dict[str, float]:
    """Measurements no row holds, from those that one does."""
    thigh = known.get("thigh", known["hip"] * _percentiles("women")["thigh_over_hip_pct"][
        "p50"] / 100)
    derived = {
        "scye_depth": scye_depth(known["bust"]), "knee": KNEE_OVER_THIGH * thigh,
        "ankle": ANKLE_OVER_THIGH * thigh,
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
