"""Which cloth serves which garment: mass in g/m2, construction, stretch.

Trousers, shirts and skirts by cloth_weights.csv, each row with its sources and status. For
the rest the classes of mass are a trade blog's (very light 85 to 136 g/m2, light 136 to 237,
medium 237 to 373, heavy 373 to 475); which class suits which garment is common
practice, and a maker who knows better may cut what she likes.
"""

from __future__ import annotations

from dataclasses import replace

from stash.model import ClothWants, Construction
from stash.reference import table

SOURCE = "weight classes: trade blog pnwkyne.com, fabric weights; choice: common practice"


def _weighed(*uses: str) -> ClothWants:
    """What cloth of these uses weighs, by the rows of cloth_weights.csv and their standing."""
    rows = [row for row in table("cloth_weights") if row["use"] in uses]

    def span(least: str, most: str) -> tuple[float, float]:
        return min(float(row[least]) for row in rows), max(float(row[most]) for row in rows)

    worn = [float(row["worn_gsm"]) for row in rows if row["worn_gsm"]]
    return ClothWants(
        mass_worn_gsm=max(worn, default=None),
        mass_gsm=span("least_gsm", "most_gsm"),
        mass_best_gsm=span("best_least_gsm", "best_most_gsm"),
        source="; ".join(f"{row['status']} ({row['source']})" for row in rows),
    )


def _knit(use: str) -> ClothWants:
    """The same of a garment that only a knit will do for."""
    return replace(_weighed(use), constructions=(Construction.KNIT,))


TROUSERS = _weighed("trousers", "jeans")  # one draft is cut as either
SHORTS = _weighed("shorts")
SHIRTS = _weighed("shirt")
SKIRTS = _weighed("skirt")
FLOWING = _weighed("flowing")
DRESSES = _weighed("dress")
KNIT_TOPS = _knit("knit top")
LEGGINGS = _knit("leggings")
SLEEPWEAR = ClothWants(mass_gsm=(80, 240), mass_best_gsm=(100, 180), source=SOURCE)
ROBES = ClothWants(mass_gsm=(120, 475), mass_best_gsm=(150, 373), source=SOURCE)
APRONS = ClothWants(mass_gsm=(110, 475), mass_best_gsm=(150, 305), source=SOURCE)
BAGS = ClothWants(mass_gsm=(136, 600), mass_best_gsm=(237, 475), opaque=False, source=SOURCE)
BEDDING = ClothWants(mass_gsm=(80, 240), mass_best_gsm=(110, 180), opaque=False, source=SOURCE)
COVERS = ClothWants(mass_gsm=(110, 600), mass_best_gsm=(180, 373), source=SOURCE)
CURTAINS = ClothWants(mass_gsm=(50, 600), mass_best_gsm=(136, 373), opaque=False, source=SOURCE)
WRAPS = ClothWants(
    constructions=(Construction.WOVEN, Construction.KNIT),
    mass_gsm=(30, 475), mass_best_gsm=(60, 237), opaque=False, source=SOURCE,
)
