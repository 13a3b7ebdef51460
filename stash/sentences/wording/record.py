"""What is said of the record: what cannot be done to it, and why."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "undo_blocked": "This cannot be undone any more, because of what was recorded later. {because}",
    "undone_before": "This was already undone.",
    "undo_replaced": (
        "Undoing this would change nothing: a later count, measure or cut has replaced it."
    ),
    "computation_failed": (
        "Something went wrong in this computation; your record is untouched. "
        "Please ask again, and keep the log if it happens twice."
    ),
}
