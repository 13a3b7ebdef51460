"""What is said of a question that lacks something."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "choose_a_garment": "Choose at least one garment.",
    "garment_wanted": "Say at least one garment, for example trousers.",
    "no_such_garment": "There is no draft or pattern “{typed}”; there are: {known}.",
    "nobody_knows_option": "None of these garments has an option “{typed}”; they take: {known}.",
    "nobody_on_record": (
        "Nobody is on record yet: add a person with measurements first, for example lengthwise "
        "person add NAME --measure hip=100cm --measure waist=80cm."
    ),
    "say_for_whom": "Say for whom it is; on record are: {known}.",
}
