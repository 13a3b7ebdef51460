"""What is said of a cloth that cannot be as it is described."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "cloth_too_wide": "Cloth is at most {most_width_mm} wide: check the width.",
    "fibre_share_nothing": "A fibre's share must be more than nothing.",
    "fibre_twice": "A fibre is named twice: give each fibre once.",
    "fibres_not_whole": (
        "The fibres add up to {total_pct}, not to 100 %: please read the label again."
    ),
    "not_a_colour_name": (
        "“{typed}” is not a colour that is known by name: say for example dark red, natural or "
        "olive."
    ),
    "not_a_kind_of_cloth": "“{typed}” is no kind of cloth from the list.",
    "not_a_weight_word": "“{typed}” is no weight; there are {known}.",
    "not_a_composition": (
        "“{typed}” is not a composition: write for example 55 % linen 45 % cotton."
    ),
    "not_a_fibre": (
        "“{typed}” is not a fibre name: use a name from a clothing label, for example cotton, "
        "linen, wool, viscose, polyester."
    ),
    "shrinks_between": "Cloth shrinks by {least_pct} to {most_pct}.",
}
