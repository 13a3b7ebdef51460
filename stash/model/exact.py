"""Any value of the model to plain JSON and back without losing anything.

``from_plain(Cloth, to_plain(cloth)) == cloth`` holds for every dataclass of
``stash.model``; floats keep every bit. The record on disk and the exported file
use it; ``stash.model.wire`` holds the rounded shapes that other programs see.
"""

from __future__ import annotations

import types
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

T = TypeVar("T")
FromPlain = Callable[[Any], Any]
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
    read: FromPlain = _reader(kind)  # type: ignore[arg-type]  # every kind can be hashed
    value: T = read(plain)
    return value


@cache
def _reader(kind: Any) -> FromPlain:
    """How a value of this kind is read: found out once for each kind, for it is asked often."""
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        return _optional_reader(get_args(kind))
    if origin is tuple:
        return _tuple_reader(get_args(kind))
    if origin is not None and issubclass(origin, Mapping):
        item = _reader(get_args(kind)[1])
        return lambda plain: {key: item(one) for key, one in plain.items()}
    if is_dataclass(kind):
        return _dataclass_reader(kind)
    if isinstance(kind, type) and issubclass(kind, Enum):
        return kind
    return _read_float if kind is float else _read_other


def _read_float(plain: Any) -> Any:
    return float(plain) if isinstance(plain, int) else _read_other(plain)


def _read_other(plain: Any) -> Any:
    return tuple(plain) if isinstance(plain, list) else plain


def _dataclass_reader(kind: Any) -> FromPlain:
    def read(plain: Mapping[str, Any]) -> Any:
        readers = _field_readers(kind)  # not before the first value: a kind may hold itself
        return kind(**{name: field(plain[name]) for name, field in readers if name in plain})

    return read


@cache
def _field_readers(kind: type) -> tuple[tuple[str, FromPlain], ...]:
    return tuple((name, _reader(hint)) for name, hint in get_type_hints(kind).items())


def _optional_reader(kinds: tuple[Any, ...]) -> FromPlain:
    wanted = [k for k in kinds if k is not types.NoneType]
    if len(wanted) != 1:
        return lambda plain: plain
    read = _reader(wanted[0])
    return lambda plain: None if plain is None else read(plain)


def _tuple_reader(kinds: tuple[Any, ...]) -> FromPlain:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        item = _reader(kinds[0])
        return lambda plain: tuple([item(one) for one in plain])
    items = tuple(map(_reader, kinds))
    return lambda plain: tuple([read(one) for read, one in zip(items, plain, strict=True)])
