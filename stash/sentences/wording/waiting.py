"""What is said of work in the background."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "too_many_waiting": (
        "One search is waiting for its turn already. Ask again once it has begun.",
        "{count} searches are waiting for their turn already. Ask again once one has begun, or "
        "take one out of the queue.",
    ),
    "tracing_not_ended": "The tracing has not ended yet; keep its outlines when it has.",
    "answer_not_kept": (
        "This answer is no longer kept: answers are forgotten when the app stops. Ask again, "
        "the stash is as it was."
    ),
}
