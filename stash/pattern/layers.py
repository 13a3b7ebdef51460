"""The numbered layers of pattern DXF files.

Source: the layer table of ASTM D6673-10 (withdrawn 2019) as reproduced in public
documentation. Only the layers that Lengthwise writes or reads are named here.
"""

from __future__ import annotations

BOUNDARY = "1"
TURN_POINTS = "2"
CURVE_POINTS = "3"
NOTCHES = "4"
MIRROR_LINE = "6"
GRAIN_LINE = "7"
INTERNAL_LINES = "8"
INTERNAL_CUTOUTS = "11"
DRILL_HOLES = "13"
SEW_LINES = "14"
ANNOTATION = "15"
NOTCH_LAYERS = (NOTCHES, "80", "81", "82", "83")
MARK_LAYERS = (INTERNAL_LINES, INTERNAL_CUTOUTS, DRILL_HOLES)

# $INSUNITS codes that a pattern may be drawn in (DXF Reference, HEADER section).
MM_PER_UNIT = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 10: 914.4, 14: 100.0}
