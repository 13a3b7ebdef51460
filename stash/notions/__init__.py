"""What a garment needs besides cloth: pure formulae, each with its source in a table.

The ``*_need`` functions turn a measure into a :class:`stash.model.Need`.
"""

from stash.notions.as_sold import Sold, as_sold, thread_sold
from stash.notions.binding import (
    BiasCut,
    bias_strips,
    binding_length_mm,
    binding_need,
    strip_width_mm,
)
from stash.notions.buttons import (
    SHIRT_BUTTON_MM,
    ButtonPlan,
    best_count,
    button_need,
    button_plan,
    buttonhole_mm,
    closure_for,
    counts_that_hold,
    first_button_mm,
    loose_button_need,
    mixed_plan,
    overlap_least_mm,
    overlap_strict_mm,
    respace,
    widest_button_mm,
    widest_gap_mm,
    with_spare,
)
from stash.notions.cautions import caution
from stash.notions.elastic import (
    casing_allowance_mm,
    casing_mm,
    cord_need,
    elastic_cut_mm,
    elastic_length_need,
    elastic_need,
    elastic_widths_mm,
)
from stash.notions.fastenings import (
    ZipVerdict,
    hook_need,
    opening_least_mm,
    snap_need,
    tape_need,
    zip_need,
    zip_serves,
    zip_sold_mm,
)
from stash.notions.interfacing import interfacing_length_mm, interfacing_need
from stash.notions.thread import (
    Setting,
    ThreadUse,
    formula_ratio,
    needle_share_pct,
    stitch_class,
    stitches,
    thread_need,
    thread_needs,
    thread_ratio,
    thread_use,
    thread_use_name,
    waste_or_usual,
)

__all__ = [
    "SHIRT_BUTTON_MM", "BiasCut", "ButtonPlan", "Setting", "ThreadUse", "best_count",
    "bias_strips", "binding_length_mm", "binding_need", "button_need", "button_plan",
    "buttonhole_mm", "casing_allowance_mm", "casing_mm", "caution", "closure_for", "cord_need",
    "counts_that_hold", "elastic_cut_mm", "elastic_length_need", "elastic_need",
    "elastic_widths_mm", "first_button_mm", "hook_need", "interfacing_length_mm",
    "interfacing_need", "loose_button_need", "mixed_plan", "overlap_least_mm",
    "overlap_strict_mm", "respace", "snap_need", "stitch_class", "stitches",
    "strip_width_mm", "tape_need", "thread_need", "thread_ratio", "thread_use",
    "widest_button_mm", "widest_gap_mm", "with_spare", "zip_need", "zip_serves", "zip_sold_mm",
    "Sold", "ZipVerdict", "as_sold", "formula_ratio", "needle_share_pct", "opening_least_mm",
    "thread_needs", "thread_sold", "thread_use_name", "waste_or_usual",
]
