"""Which routes answer with JSON: what each is asked with and what it says."""

from __future__ import annotations

from dataclasses import dataclass

from web.described.json_shapes import (
    BETWEEN,
    COLOURED,
    DOCUMENT,
    KEPT_LINES,
    KEPT_LIST,
    LABEL,
    SEEN,
    SEEN_CUT,
    STATE,
    Shape,
)


@dataclass(frozen=True, kw_only=True)
class Answer:
    """``says`` in one line; ``asks`` are the fields of the query or the form, with their meaning.

    ``always``: it answers with JSON whatever is accepted; else only with
    ``Accept: application/json``.
    """

    says: str
    shape: Shape
    asks: tuple[tuple[str, str], ...] = ()
    always: bool = True


ANSWERS: dict[tuple[str, str], Answer] = {
    # (endpoint, method): what it answers with
    ("scan.what", "GET"): Answer(
        says="What a text that a camera read stands for", shape=LABEL,
        asks=(("text", "What the code says: an address or the six letters."),)),
    ("waiting.state", "GET"): Answer(says="How a search stands", shape=STATE),
    ("stocktake.seen", "POST"): Answer(
        says="Tell a stock-take what lies in a place", shape=SEEN, always=False,
        asks=(("code", "A code that was read or typed."),)),
    ("measuring.tapped", "GET"): Answer(
        says="Measure between two places of a photograph", shape=BETWEEN,
        asks=(("one", "x,y in pixels of the photograph."),
              ("other", "x,y in pixels of the photograph."))),
    ("measuring.coloured", "GET"): Answer(
        says="Tell the colours at places of a photograph", shape=COLOURED,
        asks=(("one", "x,y in pixels of the photograph."),
              ("other", "Another place, to compare."))),
    ("pocket.copy", "GET"): Answer(
        says="What this device may keep to read without a network", shape=KEPT_LIST),
    ("pocket.lines", "GET"): Answer(says="Every cut and bin in one line", shape=KEPT_LINES),
    ("entry.look", "POST"): Answer(
        says="What a photograph shows of a cut: its label and its colour", shape=SEEN_CUT,
        asks=(("photo", "The photograph."),)),
    ("described.show", "GET"): Answer(says="This description", shape=DOCUMENT),
}
