"""What is said of a question that lacks something."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "choose_a_garment": "Choose at least one garment.",
}
