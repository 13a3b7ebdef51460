"""What is said of a question that lacks something."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "choose_a_garment": "Choose at least one garment.",
    "garment_wanted": "Say at least one garment, for example trousers.",
    "no_such_garment": "There is no draft or pattern “{typed}”; there are: {known}.",
    "nobody_knows_option": "None of these garments has an option “{typed}”; they take: {known}.",
}
