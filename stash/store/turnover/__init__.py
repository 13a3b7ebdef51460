"""What came in and what went, summed: looking back reads sums instead of every event.

Kept in a file of its own beside the record, up to an event; it is no part of the record, so
no copy holds it, and it is worked out anew where it is missing, damaged or of another record.
"""

from stash.store.turnover.rows import SIZES_MM
from stash.store.turnover.sums import FlowSum, KeptIdle, KeptLay, KeptSums, KeptTrait
from stash.store.turnover.turnover import Progress, Turnover, untold

__all__ = [
    "SIZES_MM", "FlowSum", "KeptIdle", "KeptLay", "KeptSums", "KeptTrait", "Progress", "Turnover",
    "untold",
]
