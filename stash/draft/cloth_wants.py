"""Which cloth serves which garment: mass in g/m2, construction, stretch.

The classes of mass are a trade blog's (very light 85 to 136 g/m2, light 136 to 237,
medium 237 to 373, heavy 373 to 475); which class suits which garment is common
practice, and a maker who knows better may cut what she likes.
"""

from __future__ import annotations

from stash.model import ClothWants

SOURCE = "weight classes: trade blog pnwkyne.com, fabric weights; choice: common practice"

LEGS = ClothWants(mass_gsm=(110, 475), mass_best_gsm=(150, 305), source=SOURCE)
SHIRTS = ClothWants(mass_gsm=(60, 240), mass_best_gsm=(85, 180), source=SOURCE)
SKIRTS = ClothWants(mass_gsm=(85, 475), mass_best_gsm=(136, 305), source=SOURCE)
FLOWING = ClothWants(mass_gsm=(60, 305), mass_best_gsm=(85, 200), source=SOURCE)
