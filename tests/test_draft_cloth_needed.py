"""Cloth that a draft takes lies between its own area and what published tables tell buyers."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from stash.draft.catalogue import draft
from stash.lay import LayTask, first_lay
from stash.model import Outline, Piece, Role

GOLDEN = Path(__file__).parent / "golden" / "cloth_needed_yd.csv"
ROWS = list(csv.DictReader(GOLDEN.read_text(encoding="utf-8").splitlines()[1:]))
BODY = {"hip": 1000.0, "waist": 780.0, "bust": 920.0}
YARD_MM, INCH_MM = 914.4, 25.4


def main_pieces(garment: str) -> tuple[Piece, ...]:
    """What is cut from the main cloth."""
    return tuple(p for p in draft(garment, BODY).pieces if p.role is Role.MAIN)


@pytest.mark.parametrize("row", ROWS, ids=lambda r: f"{r['garment']} {r['width_in']} in")
def test_published_yardage_is_enough(row: dict[str, str]):
    """A first lay is never shorter than the area over the width, nor longer than the table."""
    pieces, width_mm = main_pieces(row["garment"]), float(row["width_in"]) * INCH_MM
    area = sum(Outline(p.outline_mm).area_mm2 * p.quantity for p in pieces)

    answer = first_lay(LayTask(pieces=pieces, width_mm=width_mm))

    assert area / width_mm <= answer.lay.length_mm <= float(row["yards"]) * YARD_MM


@pytest.mark.parametrize("garment", ["trousers", "shorts", "shirt"])
def test_wider_cloth_takes_no_more_length(garment: str):
    """At 90, 115, 127 and 150 cm the lengths fall, and stay above the area's bound."""
    pieces = main_pieces(garment)
    area = sum(Outline(p.outline_mm).area_mm2 * p.quantity for p in pieces)

    lengths = {
        width: first_lay(LayTask(pieces=pieces, width_mm=width)).lay.length_mm
        for width in (900, 1150, 1270, 1500)
    }

    assert all(length >= area / width for width, length in lengths.items())
    assert list(lengths.values()) == sorted(lengths.values(), reverse=True)
