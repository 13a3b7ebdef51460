"""What bins may hold, as headings and choices."""

from __future__ import annotations

from stash.model import NotionKind
from web.texts import _

NAMES = {
    NotionKind.BUTTON: "Buttons", NotionKind.SNAP: "Press studs (snaps)",
    NotionKind.HOOK: "Hooks and eyes",
    NotionKind.ZIP: "Zips (zippers)", NotionKind.ELASTIC: "Elastic", NotionKind.THREAD: "Thread",
    NotionKind.INTERFACING: "Interfacing", NotionKind.BINDING: "Binding",
    NotionKind.TAPE: "Tape", NotionKind.CORD: "Cord",
}


def kind_name(kind: NotionKind) -> str:
    """The kind as a heading."""
    return _(NAMES[kind])


def kinds() -> list[tuple[str, str]]:
    """The kinds to choose from."""
    return [(kind.value, kind_name(kind)) for kind in NotionKind]
