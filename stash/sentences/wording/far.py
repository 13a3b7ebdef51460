"""What is said of how far a cut goes."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "own_pattern_grows_in_copies": (
        "A pattern of your own cannot be drafted larger: ask how many copies come out "
        "(--grow copies)."
    ),
    "cannot_grow": "“{typed}” is not something that can grow here; these can: {known}.",
    "cannot_grow_against_itself": (
        "“{typed}” cannot be set against itself: name another option that is a length."
    ),
    "far_found": "{what}: {value_mm} found by searching.",
    "far_found_count": ("{what}: {count} comes out.", "{what}: {count} come out."),
    "far_between": "{what}: {value_mm} found by searching; proved: less than {most_mm}.",
    "far_proved": "{what}: {value_mm}, and proved: less than {most_mm}.",
    "far_option_ends": "{what}: {value_mm}, as far as the draft goes.",
    "far_against": "with {option} {against_mm}",
    "far_point_nothing": "{what}: nothing comes out.",
    "choose_what_grows": "Choose what is to grow.",
    "far_not_kept": "There is no such lay in this answer. Ask again.",
    "far_took": ("Looked for {count} second.", "Looked for {count} seconds."),
    "far_none_on": (
        "{count} suitable cut does not hold even the least.",
        "{count} suitable cuts do not hold even the least.",
    ),
    "far_untried": (
        "{count} suitable cut was not tried for want of time.",
        "{count} suitable cuts were not tried for want of time.",
    ),
    "far_nothing": "Not even the least comes out of any suitable cut.",
}
