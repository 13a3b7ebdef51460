"""What is said of how far a cut goes."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "own_pattern_grows_in_copies": (
        "This pattern has no line at which it may be lengthened, so it cannot grow: say where, "
        "or ask how many copies come out (--grow copies)."
    ),
    "cannot_grow": "“{typed}” is not something that can grow here; these can: {known}.",
    "cannot_grow_against_itself": (
        "“{typed}” cannot be set against itself: name another option that is a length."
    ),
    "far_found": "{what}: {value_mm}, the most that was found by searching.",
    "far_found_count": ("{what}: {count} comes out.", "{what}: {count} come out."),
    "far_between": "{what}: {value_mm}; more was not found, and {most_mm} can never fit.",
    "far_proved": "{what}: {value_mm}; no more is possible, {most_mm} would not fit.",
    "far_option_ends": "{what}: {value_mm}; the pattern itself goes no further.",
    "far_against": "with {option} {against_mm}",
    "far_point_nothing": "{what}: nothing comes out.",
    "choose_what_grows": "Choose what is to grow.",
    "far_not_kept": "There is no such lay in this answer. Ask again.",
    "far_took": ("Looked for {count} second.", "Looked for {count} seconds."),
    "far_none_on": (
        "{count} more suitable cut is too small even for the smallest.",
        "{count} more suitable cuts are too small even for the smallest.",
    ),
    "far_untried": (
        "{count} suitable cut was not tried for want of time.",
        "{count} suitable cuts were not tried for want of time.",
    ),
    "far_nothing": "No suitable cut is big enough even for the smallest.",
}
