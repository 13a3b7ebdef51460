"""Reading a composition as a label or a person writes it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from stash.errors import InvalidInput
from stash.fibres.names import fibre
from stash.model import FibreShare

ROUNDING_PCT = 1.0
"""Shares must sum to 100, or as near as whole percents come: common practice, no source."""
_PERCENT = r"(\d+(?:[.,]\d+)?)\s*%?"
_BEFORE = re.compile(rf"{_PERCENT}\s*([^\d%,;+&]+)")
_AFTER = re.compile(rf"([^\d%,;+&]+?)\s*{_PERCENT}(?!\d)")
_BETWEEN = re.compile(r"[\s,;+&]*(?:\b(?:and|et|und)\b)?[\s,;+&]*", re.IGNORECASE)


def parse_composition(text: str) -> tuple[FibreShare, ...]:
    """Shares, greatest first, from "55 % linen 45 % cotton", "CO 65, PES 35", "wool",
    "55 % lin et 45 % coton" or "97,5 % Baumwolle und 2,5 % Elasthan".

    Names become the names of Annex I (linen is flax there). InvalidInput names an unknown fibre
    or a sum that is not 100.
    """
    cleaned = " ".join(text.split())
    if not cleaned:
        return ()
    if not re.search(r"\d", cleaned):
        return (FibreShare(fibre(cleaned.strip(" %")).name, 100.0),)
    number_first = re.match(r"[\d.,]", cleaned) is not None
    pairs = _pairs(cleaned, _BEFORE if number_first else _AFTER)
    shares = [
        (name, percent) if number_first else (percent, name) for percent, name in pairs
    ]
    return checked(FibreShare(fibre(_plain(n)).name, float(p.replace(",", "."))) for n, p in shares)


def checked(shares: Iterable[FibreShare]) -> tuple[FibreShare, ...]:
    """The shares, greatest first; InvalidInput when a sum, a share or a name is wrong."""
    ordered = tuple(sorted(shares, key=lambda share: -share.percent))
    total = sum(share.percent for share in ordered)
    if abs(total - 100) > ROUNDING_PCT:
        raise InvalidInput("fibres_not_whole", total_pct=total, field="fibres")
    if any(share.percent <= 0 for share in ordered):
        raise InvalidInput("fibre_share_nothing", field="fibres")
    if len({share.fibre for share in ordered}) < len(ordered):
        raise InvalidInput("fibre_twice", field="fibres")
    return ordered


def format_composition(shares: Iterable[FibreShare]) -> str:
    """"55 % flax, 45 % cotton": all fibres in descending order, as Article 9(1) asks."""
    ordered = sorted(shares, key=lambda share: -share.percent)
    return ", ".join(f"{share.percent:g} % {share.fibre}" for share in ordered)


def _pairs(text: str, form: re.Pattern[str]) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    end = 0
    while end < len(text):
        match = form.match(text, end)
        if match is None:
            raise InvalidInput("not_a_composition", typed=text[:60], field="fibres")
        found.append((match.group(1), match.group(2)))
        between = _BETWEEN.match(text, match.end())
        end = between.end() if between else match.end()
    return found


def _plain(name: str) -> str:
    return re.sub(r"\b(?:and|et|und)\s*$", "", name.strip(" .:/-"), flags=re.IGNORECASE)
