"""What is said of a form that was sent incomplete."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "choose_a_file": "Choose a file first.",
    "choose_a_photograph": "Choose a photograph first.",
    "choose_what_is_in_bin": "Choose what is in the bin.",
    "construction_from_list": "Choose from the list how the cloth is made.",
    "field_between": "{label} must lie between {least} and {most}.",
    "field_empty": "{label} is still empty.",
    "cloth_unnamed": "The cloth has no name yet: type one, or choose its kind.",
    "field_number": "{label} must be a number, not “{typed}”.",
    "field_too_long": "This is {letters} letters long, and {most_letters} can be kept. "
                      "Please shorten it; nothing was cut off or saved.",
    "field_whole": "{label} must be a whole number.",
    "keep_a_piece": "Keep at least one piece.",
    "layout_from_list": "Choose from the list what is drawn on each label.",
    "search_name_wanted": "Give the search a name of 1 to {most} letters.",
    "no_such_search": "No search is kept as “{typed}”.",
    "tick_a_cut": "Tick at least one cut of cloth.",
    "tick_something": "Tick at least one thing that is here.",
    "type_a_piece": "Type at least one piece.",
}
