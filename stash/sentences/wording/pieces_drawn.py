"""What is said on a drawn piece: how often it is cut, where it lies, what is allowed."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "cut_times": "cut {number}",
    "cut_as_pair": "cut {number}, a mirrored pair",
    "cut_in_pairs": "cut {number}, in mirrored pairs",
    "cut_on_fold": "cut {number} on the fold",
    "of_main_cloth": "{cut}, main cloth",
    "lies_on_bias": "on the bias",
    "place_on_fold": "place on the fold",
    "may_lie_on_fold": "centre, may lie on the fold",
    "cut_rectangle": "{along_measure_mm} along the grain × {across_measure_mm} across",
    "cut_size": "cut size, seams counted in",
    "seams_allowed": "seams {seam_small_mm} allowed",
    "edge_allowed": "{edge} {edge_small_mm}",
    "edge_not_allowed": "{edge} none",
}
