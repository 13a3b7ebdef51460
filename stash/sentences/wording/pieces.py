"""What is said of pieces and outlines that cannot be laid or cut."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "dragged_outline_broken": "The dragged outline did not arrive whole; drag it again.",
    "outline_points": "An outline has at most {most} points.",
    "pairs_are_even": "A piece in mirrored pairs is cut an even number of times.",
    "cloth_outline_unsound": (
        "The outline of the cloth crosses itself or has no area; please measure it again."
    ),
    "lay_needs_cloth": "Please give the cloth: its outline, or its width.",
    "margins_negative": "Margins and the off-grain angle must be nothing or more.",
    "name_twice": "Two pieces are called “{piece}”; please give each its own name.",
    "no_pieces": "There are no pieces to lay.",
    "not_a_piece": (
        "“{typed}” is not a piece: write for example “front, 104cm x 30cm, cut 2, mirrored” or, "
        "with widths from the top down, “back, 70cm x 20cm-28cm, on fold”."
    ),
    "outline_not_numbers": "“{piece}” has a point that is not a number in its outline.",
    "outline_too_long": (
        "“{piece}” has {points} points; please give its outline with at most {most_points}."
    ),
    "outline_too_short": "“{piece}” needs an outline of at least three points.",
    "pair_is_odd": "“{piece}” is a mirrored pair, so its quantity must be even, not {quantity}.",
    "piece_needs_name": "A piece needs a name.",
    "piece_without_area": "“{piece}” would have no area.",
    "quantity_below_one": "“{piece}” is to be cut {quantity} times; it must be at least once.",
    "repeat_is_nothing": "A repeat must be more than nothing.",
    "sizes_out_of_range": (
        "The sizes of “{piece}” must be more than nothing, up to {most_length_mm}."
    ),
    "too_many_pieces": "More than {most} pieces at once; please lay fewer together.",
    "turn_not_number": "“{piece}” has a turn that is not a number.",
    "width_is_nothing": "The width of the cloth must be more than nothing.",
    "outline_without_area": (
        "The outline of “{piece}” has no area; please correct it and try again."
    ),
    "outline_crosses_itself": (
        "The outline of “{piece}” crosses itself; please correct it and try again."
    ),
}
