"""Any value of the model to plain JSON and back without losing anything.

``from_plain(Cloth, to_plain(cloth)) == cloth`` holds for every dataclass of
``stash.model``; floats keep every bit. The record on disk and the exported file
use it; ``stash.model.wire`` holds the rounded shapes that other programs see.
"""

from __future__ import annotations

import types
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

T = TypeVar("T")
PLAIN = frozenset((str, int, float, bool, types.NoneType))


def to_plain(value: object) -> Any:
    """Dicts, lists, strings and numbers only."""
    kind = type(value)
    if kind in PLAIN:  # most values are, and this is asked of every one
        return value
    if kind is dict:
        return {str(key): to_plain(item) for key, item in value.items()}  # type: ignore[attr-defined]
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: to_plain(getattr(value, f.name)) for f in fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Mapping):
        return {str(key): to_plain(item) for key, item in value.items()}
    if isinstance(value, (tuple, list)):
        return [to_plain(item) for item in value]
    return value


def from_plain(kind: type[T], plain: Any) -> T:
    """The value of type ``kind`` that :func:`to_plain` wrote.

    Fields unknown to this version are left out and missing ones take their
    default, so a file of a neighbouring version can still be read.
    """
    value: T = _read(kind, plain)
    return value


def _read(kind: Any, plain: Any) -> Any:
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        return _read_optional(get_args(kind), plain)
    if origin is tuple:
        return _read_tuple(get_args(kind), plain)
    if origin is not None and issubclass(origin, Mapping):
        return {key: _read(get_args(kind)[1], item) for key, item in plain.items()}
    if is_dataclass(kind):
        return _read_dataclass(kind, plain)
    if isinstance(kind, type) and issubclass(kind, Enum):
        return kind(plain)
    if kind is float and isinstance(plain, int):
        return float(plain)
    return tuple(plain) if isinstance(plain, list) else plain


def _read_dataclass(kind: Any, plain: Mapping[str, Any]) -> Any:
    hints = _hints(kind)
    return kind(**{name: _read(hints[name], plain[name]) for name in hints if name in plain})


def _read_optional(kinds: tuple[Any, ...], plain: Any) -> Any:
    if plain is None:
        return None
    wanted = [k for k in kinds if k is not types.NoneType]
    return _read(wanted[0], plain) if len(wanted) == 1 else plain


def _read_tuple(kinds: tuple[Any, ...], plain: Any) -> tuple[Any, ...]:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(_read(kinds[0], item) for item in plain)
    return tuple(_read(k, item) for k, item in zip(kinds, plain, strict=True))


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)
