"""What the edges of pieces are called, for those who put them into other languages."""

from __future__ import annotations

EDGE_NAMES = (
    "waist", "side", "hem", "fold", "centre front", "centre back", "front edge", "neck",
    "shoulder", "armhole", "cap", "underarm", "front seam", "back seam", "inside leg", "crotch",
    "notch", "inner", "outer", "lower", "top", "bottom", "panel seam", "end", "long", "seam",
)
