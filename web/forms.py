"""What a person typed: read through ``stash.units``, kept on the page when it is refused."""

from __future__ import annotations

import hashlib
import json
import math
import re

from flask import request
from werkzeug.datastructures import FileStorage

from stash.errors import InvalidInput
from stash.quantity import (
    PRICED_MM,
    Quantity,
    read_length,
    read_length_or_nothing,
    read_new_length,
)
from stash.units import LONGEST_MM, parse_mass
from web.request_stash import system

MOST_LETTERS = 200
TOKEN = re.compile(r"[A-Za-z0-9_-]{8,64}")


def token() -> str | None:
    """The once-only token of this form with a digest of all it says.

    The same token twice is recorded once; with another content it is refused.
    """
    given = request.form.get("token", "")
    return f"{given}~{_content()}" if TOKEN.fullmatch(given) else None


def _content() -> str:
    said = sorted((name, value) for name, value in request.form.items(multi=True)
                  if name != "token")
    sent = sorted((name, file.filename or "", _digest(file))
                  for name, file in request.files.items(multi=True))
    text = json.dumps([request.path, said, sent], ensure_ascii=True)
    return hashlib.sha256(text.encode()).hexdigest()[:20]


def _digest(sent: FileStorage) -> str:
    """Of an uploaded file; one that was read and closed already counts by its name alone."""
    if sent.stream.closed:
        return ""
    at = sent.stream.tell()
    sent.stream.seek(0)
    digest = hashlib.file_digest(sent.stream, "sha256").hexdigest()
    sent.stream.seek(at)
    return digest


def text(name: str, *, most: int = MOST_LETTERS) -> str:
    """A line of text, trimmed; may be empty. InvalidInput when it is longer than ``most``."""
    return short(request.form.get(name, "").strip(), name, most)


def short(value: str, name: str, most: int = MOST_LETTERS) -> str:
    """The value as it is, never cut; InvalidInput when it is longer than ``most``."""
    if len(value) > most:
        raise InvalidInput("field_too_long", letters=len(value), most_letters=most, field=name)
    return value


def edited(name: str) -> str:
    """A line of text if it was typed or changed; empty where the field is as it was shown."""
    return "" if untouched(name) else text(name)


def kept_text(name: str, known: str, *, most: int = 200) -> str:
    """A line of text; what was not edited stays as it is known, however long."""
    return known if untouched(name) else text(name, most=most)


def needed(name: str, label: str) -> str:
    """A line of text that must not be empty."""
    if value := text(name):
        return value
    raise InvalidInput("field_empty", label=label, field=name)


def untouched(name: str) -> bool:
    """True when the field still holds what it was shown with (``parts/fields.html``)."""
    shown = request.form.get(f"{name}-as-shown")
    return shown is not None and shown.strip() == request.form.get(name, "").strip()


def left_alone(name: str) -> bool:
    """True when a field still holds what it was shown with, or was not sent at all."""
    return name not in request.form or untouched(name)


def was_shown(name: str) -> bool:
    """True when the form showed the field with something in it."""
    return bool(request.form.get(f"{name}-as-shown", "").strip())


def all_as_shown(*names: str, empty: tuple[str, ...] = ()) -> bool:
    """True when these fields are as they were shown, and the ``empty`` ones still empty."""
    return all(map(untouched, names)) and not any(map(text, empty))


def exact(name: str) -> float | None:
    """The exact number behind an untouched field; None when there is none or it was edited."""
    if not untouched(name):
        return None
    try:
        value = json.loads(request.form.get(f"{name}-exact", "null"))
    except ValueError:
        return None
    sound = isinstance(value, int | float) and not isinstance(value, bool)
    return float(value) if sound and math.isfinite(value) and abs(value) <= LONGEST_MM else None


def length(name: str, quantity: Quantity) -> float:
    """Millimetres; what was not edited keeps its exact value."""
    kept = exact(name)
    return kept if kept else read_length(
        request.form.get(name, ""), quantity, field=name, system=system())


def new_length(name: str) -> float:
    """Millimetres of all there is of a cut; what was not edited keeps its exact value."""
    kept = exact(name)
    return kept if kept else read_new_length(
        request.form.get(name, ""), field=name, system=system())


def length_or_nothing(name: str, quantity: Quantity) -> float:
    """As :func:`length`; an empty field and 0 are nothing."""
    kept = exact(name)
    return kept if kept is not None else read_length_or_nothing(
        text(name) or "0", quantity, field=name, system=system())


def maybe_length(name: str, quantity: Quantity) -> float | None:
    """Millimetres, or None when the field was left empty."""
    return length(name, quantity) if text(name) else None


def maybe_mass(name: str) -> float | None:
    """Grams per square metre, or None when the field was left empty."""
    if (kept := exact(name)) is not None:
        return kept
    return parse_mass(text(name), field=name) if text(name) else None


def number(name: str, label: str, least: float = 0, most: float = 1e6) -> float:
    """A plain number within bounds; a comma serves as a point."""
    typed = text(name)
    if (kept := exact(name)) is not None:
        return kept
    try:
        value = float(typed.replace(",", "."))
    except ValueError:
        raise InvalidInput("field_number", label=label, typed=typed, field=name) from None
    if not least <= value <= most:
        raise InvalidInput("field_between", label=label, least=least, most=most, field=name)
    return value


def maybe_number(name: str, label: str, least: float = 0, most: float = 1e6) -> float | None:
    """A number, or None when the field was left empty."""
    return number(name, label, least, most) if text(name) else None


def maybe_price(name: str, label: str) -> int | None:
    """What a metre costs in minor currency, of the price of a metre or a yard; None where empty."""
    price = maybe_number(name, label, 0, 100_000)
    return None if price is None else round(price * 100_000 / PRICED_MM[system()])


def count(name: str, label: str, least: int = 0, most: int = 100_000) -> int:
    """A whole number."""
    value = number(name, label, least, most)
    if value != int(value):
        raise InvalidInput("field_whole", label=label, field=name)
    return int(value)


def back_to(otherwise: str) -> str:
    """The page of ours that ``back`` names, of the form or the query; else ``otherwise``."""
    back = request.values.get("back", "")
    inside = back.startswith("/") and not back.startswith(("//", "/\\"))
    return back if inside else otherwise


def ticked(name: str) -> bool:
    """Whether a box was ticked."""
    return name in request.form


def was_chosen(name: str) -> bool:
    """Whether a file of that name came along, which the page of a refusal cannot show again."""
    return any(sent.filename for sent in request.files.getlist(name))


def content_of(sent: FileStorage) -> bytes:
    """An uploaded file's bytes; its place on the disk is given back at once."""
    try:
        return sent.read()
    finally:
        sent.close()
