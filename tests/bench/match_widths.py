"""Draws docs/match-widths.svg: our need by width of cloth beside the published conversion.

Run by hand: ``.venv/bin/python tests/bench/match_widths.py``. The published rows are those of
tests/golden/width_conversion_yd.csv; the garments and their laying are those of
tests/test_match_widths.py, searched for longer here.
"""

from __future__ import annotations

import csv
from pathlib import Path
from statistics import mean

from stash.lay import Budget
from stash.match.gather import gather, of_role
from stash.match.order import Order
from stash.match.shop.lengths import SELVEDGE_MM
from stash.match.strip_lays import Strips, Table
from stash.model import Role

ROOT = Path(__file__).parents[2]
GOLDEN = ROOT / "tests" / "golden" / "width_conversion_yd.csv"
PICTURE = ROOT / "docs" / "match-widths.svg"
WIDTHS_IN = {"35-36in": 35.5, "39in": 39.0, "41in": 41.0, "44-45in": 44.5, "50in": 50.0,
             "52-54in": 53.0, "58-60in": 59.0, "66in": 66.0}
WOMAN = {"hip": 1000.0, "waist": 780.0, "bust": 940.0, "height": 1680.0}
GARMENTS = ("trousers", "shorts", "shirt", "tunic", "robe", "nightshirt", "apron",
            "straight-skirt", "a-line-skirt")
THIN = 'stroke="#8b6a4a" stroke-width="1" stroke-dasharray="4 4" stroke-opacity="0.7"'
WIDE, HIGH, LEFT, TOP = 800, 440, 64, 24
SWEEPS = 800


def published() -> dict[str, list[float]]:
    """Every row's share of 35-36 in, by width."""
    lines = [line for line in GOLDEN.read_text().splitlines() if not line.startswith("#")]
    rows = [{k: float(v) for k, v in row.items()} for row in csv.DictReader(lines)]
    return {name: [row[name] / row["35-36in"] for row in rows] for name in WIDTHS_IN}


def ours(garment: str) -> list[float]:
    """Our lays' share of the length at 35-36 in, width by width."""
    order = Order(garment=garment, measurements_mm=WOMAN, body="women")
    strips = Strips(of_role(gather([order.drafted()]), Role.MAIN), Table())
    lengths = [
        strips.best(inches * 25.4 - 2 * SELVEDGE_MM, Budget(iterations=SWEEPS)).lay.length_mm
        for inches in WIDTHS_IN.values()
    ]
    return [length / lengths[0] for length in lengths]


def at(inches: float, share: float) -> str:
    """A point of the picture."""
    x = LEFT + (inches - 34) / (68 - 34) * (WIDE - LEFT - 170)
    y = TOP + (1.05 - share) / (1.05 - 0.35) * (HIGH - TOP - 56)
    return f"{x:.1f},{y:.1f}"


def line(shares: list[float], style: str) -> str:
    """A curve through the widths."""
    points = " ".join(at(w, s) for w, s in zip(WIDTHS_IN.values(), shares, strict=True))
    return f'<polyline points="{points}" fill="none" {style}/>'




def axes() -> list[str]:
    """Widths below, shares at the left."""
    parts = []
    for share in (0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0):
        start, end = at(34, share), at(67, share)
        (x0, y0), (x1, y1) = start.split(","), end.split(",")
        parts.append(f'<line x1="{x0}" y1="{y0}" x2="{x1}" y2="{y1}" stroke="#d8d3c6"/>')
        parts.append(f'<text x="{LEFT - 10}" y="{y0}" dy="4" text-anchor="end">{share:.0%}</text>')
    for name, inches in WIDTHS_IN.items():
        x = at(inches, 0.4).split(",")[0]
        if name not in {"39in", "52-54in"}:
            parts.append(f'<text x="{x}" y="{HIGH - 34}" text-anchor="middle">'
                         f'{name.removesuffix("in")}</text>')
    parts.append(f'<text x="{WIDE / 2 - 40}" y="{HIGH - 10}" text-anchor="middle">'
                 "width of the cloth as sold, inches</text>")
    return parts


def picture(found: dict[str, list[float]]) -> str:
    """The whole drawing."""
    chart = published()
    low = [at(WIDTHS_IN[n], min(v)) for n, v in chart.items()]
    high = [at(WIDTHS_IN[n], max(v)) for n, v in chart.items()]
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {HIGH}" role="img" '
        'font-family="system-ui, sans-serif" font-size="13" fill="#26302f">',
        "<title>Cloth needed by width, as a share of what 35-36 in cloth takes</title>",
        f'<rect width="{WIDE}" height="{HIGH}" fill="#fbfaf7"/>', *axes(),
        f'<polygon points="{" ".join(low + high[::-1])}" fill="#2f4059" fill-opacity="0.18"/>',
        line([mean(v) for v in chart.values()], 'stroke="#2f4059" stroke-width="1.5"'),
    ]
    parts += [line(found[garment], THIN) for garment in GARMENTS]
    middle = [mean(v) for v in zip(*found.values(), strict=True)]
    parts.append(line(middle, 'stroke="#1b1b1c" stroke-width="3"'))
    legend = [("#2f4059", "published, 12 rows"), ("#1b1b1c", f"ours, mean of {len(found)}"),
              ("#8b6a4a", "each garment")]
    for n, (colour, words) in enumerate(legend):
        y = TOP + 14 + 20 * n
        parts.append(f'<rect x="{WIDE - 150}" y="{y - 7}" width="16" height="4" fill="{colour}"/>')
        parts.append(f'<text x="{WIDE - 128}" y="{y}">{words}</text>')
    return "\n".join([*parts, "</svg>"]) + "\n"


def main() -> None:
    """Lay, draw, and print the figures of the table in docs/match.md."""
    found = {garment: ours(garment) for garment in GARMENTS}
    for n, (name, shares) in enumerate(published().items()):
        middle = mean(f[n] for f in found.values())
        print(f"{name:>8s}  published {min(shares):.2f} to {max(shares):.2f}, mean "
              f"{mean(shares):.2f}; ours {middle:.2f}")
    PICTURE.write_text(picture(found), encoding="utf-8")


if __name__ == "__main__":
    main()
