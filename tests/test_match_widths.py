"""Our need at one width and at another, against the published conversion of yardage."""

from __future__ import annotations

import csv
from pathlib import Path
from statistics import mean

import pytest

from stash.match.gather import gather, of_role
from stash.match.order import Order
from stash.match.shop.lengths import SELVEDGE_MM
from stash.match.strip_lays import Strips, Table
from stash.model import Role

GOLDEN = Path(__file__).parent / "golden" / "width_conversion_yd.csv"
# The middle of each width the chart names.
WIDTHS_IN = {"35-36in": 35.5, "39in": 39.0, "41in": 41.0, "44-45in": 44.5, "50in": 50.0,
             "52-54in": 53.0, "58-60in": 59.0, "66in": 66.0}
# Every amount of the chart is rounded to an eighth of a yard.
ROUNDING_YD = 1 / 16
WOMAN = {"hip": 1000.0, "waist": 780.0, "bust": 940.0, "height": 1680.0}
GARMENTS = ("trousers", "shorts", "shirt", "tunic", "robe", "nightshirt", "apron",
            "straight-skirt", "a-line-skirt")


def chart() -> list[dict[str, float]]:
    """The published rows."""
    lines = [line for line in GOLDEN.read_text().splitlines() if not line.startswith("#")]
    return [{k: float(v) for k, v in row.items()} for row in csv.DictReader(lines)]


def published(width: str) -> tuple[float, float]:
    """(least, most) of what a width takes, as a share of 35-36 in, over all rows."""
    rows = chart()
    return (
        min((r[width] - ROUNDING_YD) / (r["35-36in"] + ROUNDING_YD) for r in rows),
        max((r[width] + ROUNDING_YD) / (r["35-36in"] - ROUNDING_YD) for r in rows),
    )


def shares(garment: str) -> dict[str, float]:
    """What our lays take at each width, as a share of 35-36 in."""
    order = Order(garment=garment, measurements_mm=WOMAN, body="women")
    strips = Strips(of_role(gather([order.drafted()]), Role.MAIN), Table())
    lengths = {
        name: strips.first(inches * 25.4 - 2 * SELVEDGE_MM).lay.length_mm
        for name, inches in WIDTHS_IN.items()
    }
    return {name: length / lengths["35-36in"] for name, length in lengths.items()}


@pytest.fixture(scope="module")
def ours() -> dict[str, dict[str, float]]:
    """Every garment's shares."""
    return {garment: shares(garment) for garment in GARMENTS}


@pytest.mark.parametrize("width", list(WIDTHS_IN)[1:])
def test_over_several_garments_our_conversion_lies_within_the_scatter_of_the_published_one(
    width: str, ours: dict[str, dict[str, float]]
):
    """Standard US conversion chart (sewwithsarah.com; greenspun.com): 12 rows, to 1/8 yd."""
    least, most = published(width)

    assert least <= mean(garment[width] for garment in ours.values()) <= most


@pytest.mark.parametrize("garment", GARMENTS)
def test_wider_cloth_never_takes_more(garment: str, ours: dict[str, dict[str, float]]):
    """As in the chart, every row falls from narrow to wide."""
    found = list(ours[garment].values())

    assert found == sorted(found, reverse=True)
