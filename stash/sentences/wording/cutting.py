"""What is said at the cutting table: of lengths, corners and what is left."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "corner_too_large": "The missing corner must be smaller than the cut.",
    "nothing_to_undo": "There is nothing to take back.",
    "no_such_place": "There is no place “{typed}”. Places on record: {known}.",
}
