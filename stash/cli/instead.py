"""Options that take each other's place: two of them together are a question, never a guess."""

from __future__ import annotations

from stash.errors import InvalidInput


def only_one(**given: object) -> None:
    """InvalidInput when more than one was typed; a name is an option's, or an ARGUMENT's."""
    typed = tuple(
        _as_typed(name) for name, value in given.items() if value not in (None, False, "", ()))
    if len(typed) > 1:
        raise InvalidInput("only_one_of_these", options=typed)


def _as_typed(name: str) -> str:
    return name if name.isupper() else "--" + name.replace("_", "-")
