"""What a question is called, and what is said of one that lacks something."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "asked_things": "{garments}",
    "asked_things_for": "{garments} for {people}",
    "asked_as_far": "As far as it goes: {garments}",
    "choose_a_garment": "Choose at least one garment.",
}
