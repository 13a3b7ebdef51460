"""How a row of the report is called: a month, a fibre, or a name of hers as it stands."""

from __future__ import annotations

from stash.sentences.manner import month
from stash.sentences.quantities import fibre
from stash.sentences.reader import Reader

_SAID = {"month": month, "fibre": fibre}


def row_said(by: str, key: str, reader: Reader) -> str:
    """The name of a row that stands for ``key`` when rows are ``by`` month, fibre, ...; or none."""
    return _SAID[by](key, reader) if key and by in _SAID else key
