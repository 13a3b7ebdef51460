"""Fibres and care in plain words, short enough for a label."""

from __future__ import annotations

from collections.abc import Iterable

from stash.model import FibreShare


def fibre_line(fibres: Iterable[FibreShare]) -> str:
    """"55% linen, 45% cotton", the greatest share first; a single whole fibre is "100% wool".

    Regulation (EU) 1007/2011 article 9 asks for names and percentages by weight in
    descending order on textile products; a stash label follows the same order.
    """
    ordered = sorted(fibres, key=lambda share: -share.percent)
    return ", ".join(f"{_plain(share.percent)}% {share.fibre}" for share in ordered)


def _plain(percent: float) -> str:
    return f"{percent:.1f}".removesuffix(".0")
