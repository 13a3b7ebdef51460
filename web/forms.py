"""What a person typed: read through ``stash.units``, kept on the page when it is refused."""

from __future__ import annotations

import re

from flask import request
from werkzeug.datastructures import FileStorage

from stash.errors import InvalidInput
from stash.units import parse_length, parse_mass
from web.texts import _

TOKEN = re.compile(r"[A-Za-z0-9_-]{8,64}")


def token() -> str | None:
    """The once-only token of this form: the same token twice is recorded once."""
    given = request.form.get("token", "")
    return given if TOKEN.fullmatch(given) else None


def text(name: str, *, most: int = 200) -> str:
    """A line of text, trimmed; may be empty."""
    return request.form.get(name, "").strip()[:most]


def needed(name: str, label: str) -> str:
    """A line of text that must not be empty."""
    if value := text(name):
        return value
    raise InvalidInput(_("%(label)s is still empty.", label=label), field=name)


def length(name: str, unit: str = "cm") -> float:
    """Millimetres; a bare number takes ``unit``."""
    return parse_length(request.form.get(name, ""), unit=unit, field=name)


def maybe_length(name: str, unit: str = "cm") -> float | None:
    """Millimetres, or None when the field was left empty."""
    return length(name, unit) if text(name) else None


def maybe_mass(name: str) -> float | None:
    """Grams per square metre, or None when the field was left empty."""
    return parse_mass(text(name), field=name) if text(name) else None


def number(name: str, label: str, least: float = 0, most: float = 1e6) -> float:
    """A plain number within bounds; a comma serves as a point."""
    typed = text(name)
    try:
        value = float(typed.replace(",", "."))
    except ValueError:
        raise InvalidInput(
            _("%(label)s must be a number, not “%(typed)s”.", label=label, typed=typed), field=name
        ) from None
    if not least <= value <= most:
        raise InvalidInput(
            _("%(label)s must lie between %(least)g and %(most)g.",
              label=label, least=least, most=most),
            field=name,
        )
    return value


def maybe_number(name: str, label: str, least: float = 0, most: float = 1e6) -> float | None:
    """A number, or None when the field was left empty."""
    return number(name, label, least, most) if text(name) else None


def count(name: str, label: str, least: int = 0, most: int = 100_000) -> int:
    """A whole number."""
    value = number(name, label, least, most)
    if value != int(value):
        raise InvalidInput(_("%(label)s must be a whole number.", label=label), field=name)
    return int(value)


def ticked(name: str) -> bool:
    """Whether a box was ticked."""
    return name in request.form


def content_of(sent: FileStorage) -> bytes:
    """An uploaded file's bytes; its place on the disk is given back at once."""
    try:
        return sent.read()
    finally:
        sent.close()
