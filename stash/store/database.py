"""The library of the record, loaded without what it would load only to know of.

While it is imported, sqlite-utils looks for numpy and pandas, to name the columns of tables that
are made from their numbers. The record holds none, its tables are made by migrations, and numpy
alone takes longer to load than everything else a listing needs; so, where nobody has loaded them
yet, they are said not to be there. What is imported later finds them as ever.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def _without(*names: str) -> Iterator[None]:
    """Inside, modules that are not loaded yet cannot be (a None in ``sys.modules`` says so)."""
    absent = [name for name in names if name not in sys.modules]
    sys.modules.update(dict.fromkeys(absent))  # type: ignore[arg-type]
    try:
        yield
    finally:
        for name in absent:
            del sys.modules[name]


with _without("numpy", "pandas"):
    from sqlite_utils import Database, Migrations

__all__ = ["Database", "Migrations"]
