"""What is said of a form that was sent incomplete."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "choose_a_file": "Choose a file first.",
    "choose_a_photograph": "Choose a photograph first.",
    "choose_what_is_in_bin": "Choose what is in the bin.",
    "field_between": "{label} must lie between {least} and {most}.",
    "field_empty": "{label} is still empty.",
    "field_number": "{label} must be a number, not “{typed}”.",
    "field_whole": "{label} must be a whole number.",
    "keep_a_piece": "Keep at least one piece.",
    "type_a_piece": "Type at least one piece.",
}
