"""What photographs show: paper pieces, and what is left of a cut.

Apart from the other acts, since OpenCV takes a while to load.
"""

from __future__ import annotations

from stash.eye.outlines.remnant import trace_remnant
from stash.pattern.traced import trace_pieces

__all__ = ["trace_pieces", "trace_remnant"]
