"""What is said of a form that was sent incomplete."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "choose_a_file": "Choose a file first.",
    "choose_a_photograph": "Choose a photograph first.",
    "choose_what_is_in_bin": "Choose what is in the bin.",
    "construction_from_list": "Choose from the list how the cloth is made.",
    "field_between": "{label} must lie between {least} and {most}.",
    "field_empty": "{label} is still empty.",
    "field_number": "{label} must be a number, not “{typed}”.",
    "field_too_long": "This is {letters} letters long, and {most_letters} can be kept. "
                      "Please shorten it; nothing was cut off or saved.",
    "field_whole": "{label} must be a whole number.",
    "keep_a_piece": "Keep at least one piece.",
    "layout_from_list": "Choose from the list what is drawn on each label.",
    "type_a_piece": "Type at least one piece.",
}
