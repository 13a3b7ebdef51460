"""What is said of a lay: that it fits, why it cannot, and what is wrong with one."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "everything_fits": "Everything fits in {used_mm}.",
    "getting_ready_to_lay": (
        "Getting ready: what lays the pieces is compiled once on this computer, which takes "
        "some seconds."
    ),
    "getting_ready_to_search": (
        "Getting ready to search for a shorter lay, which is done once on this computer and takes "
        "some seconds more."
    ),
    # Proofs: what no lay can do.
    "nothing_inside_the_edge": "Nothing of this cloth is left inside its edge margin.",
    "piece_wider_than_cloth": (
        "The {piece} is {across_mm} across and the usable cloth is only {there_mm} wide."
    ),
    "piece_longer_than_cloth": (
        "The {piece} is {along_mm} along the grain and the cut is only {there_mm} long."
    ),
    "piece_too_large": "The {piece} is too large for the cut in every direction it may lie.",
    "one_way_folded_crosswise": (
        "A crosswise fold turns the upper layer round, so one-way cloth cannot be folded that "
        "way; lay it open or fold it lengthwise."
    ),
    "fold_too_narrow": (
        "Folded {spread}, the {piece} needs {needed_mm} of doubled cloth and there are only "
        "{there_mm}; lay the cloth open."
    ),
    "pieces_larger_than_cloth": "The pieces cover {pieces_mm2} and the cut has only {there_mm2}.",
    "too_wide_side_by_side": (
        "Side by side in {length_mm} of length, the pieces need a width of {needed_width_mm} at "
        "least; the cut is only {there_width_mm} wide."
    ),
    "too_long_one_behind_another": (
        "One behind another in {across_width_mm} of width, the pieces need {needed_mm} of length "
        "at least; the cut is only {there_mm} long."
    ),
    "match_points_off_print": (
        "The match points of “{piece}” cannot all lie on the print: one is {off_mm} off a whole "
        "repeat from the first. Keep the one that matters most, or move the others by whole "
        "repeats."
    ),
    # Not found, which proves nothing.
    "no_lay_found_short": (
        "No lay was found; the shortest one known needs {short_mm} more length."
    ),
    "no_lay_spread_this_way": "No lay was found on this cloth spread this way; try it open.",
    "no_lay_found": "No lay was found.",
    "no_sound_lay": (
        "No lay could be made sure of on this cloth, so none is shown. {faults}"
    ),
    # Faults of a lay, found by the check.
    "not_laid": "{piece} is not laid.",
    "laid_unasked": "{piece} is laid although it is not asked for.",
    "wrong_number_mirrored": "{piece}: mirrored copies {mirrored}, wanted {wanted}.",
    "wrongly_turned": "{piece} is turned by {turn_deg}, which this cloth does not allow.",
    "leaves_the_cloth": "{piece} leaves the cloth.",
    "beyond_the_length": "{piece} lies beyond the length used.",
    "too_near": "{piece} and {other} are less than {apart_mm} apart.",
    "overlapping": "{piece} and {other} overlap.",
    "off_the_fold": "{piece} does not lie on the fold.",
    "across_the_fold": "{piece} lies across the fold.",
    "off_the_repeat": "{piece} is off the repeat by {off_mm}.",
}
