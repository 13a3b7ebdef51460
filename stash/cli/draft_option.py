"""How an option of a draft is typed: NAME=VALUE."""

from __future__ import annotations

from stash.errors import InvalidInput


def parse_option(text: str) -> tuple[str, str]:
    """("length", "45cm") from "length=45cm"."""
    name, equals, value = text.partition("=")
    if not equals or not name.strip() or not value.strip():
        raise InvalidInput("not_an_option", typed=text.strip()[:40], field="option")
    return name.strip().replace("-", "_"), value.strip()
