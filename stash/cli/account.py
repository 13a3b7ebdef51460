"""How much is left of a cut and why, as JSON and as text."""

from __future__ import annotations

from stash.cli import written
from stash.fact import Fact
from stash.workroom.cuts import CutCard
from stash.workroom.explaining import Account, whole_mm


def account_json(account: Account) -> dict[str, object]:
    """``{"area_mm2", "whole_mm", "parent", "remaining": [{"mm", "kind", "says"}]}``."""
    whole = account.whole
    return {
        "area_mm2": round(account.area_mm2, 1),
        "whole_mm": [round(whole.length_mm, 1), round(whole.width_mm, 1)],
        "parent": account.parent,
        "remaining": [
            {"mm": round(line.mm, 3), "area_mm2": round(line.area_mm2, 1), "kind": line.kind,
             "fact": line.why.to_json(), "says": _said(line.why)}
            for line in account.lines
        ],
    }


def account_text(account: Account) -> str:
    """The lines of the account in one line."""
    return "  " + ", ".join(_said(line.why) for line in account.lines)


def remnant_json(card: CutCard) -> dict[str, object]:
    """A remnant as it came off: its outline, what of it is whole, and what it came from."""
    outline = card.cut.outline
    return {
        "code": card.cut.code, **outline.to_json(), "area_mm2": round(outline.area_mm2, 1),
        "whole_mm": [round(mm, 1) for mm in whole_mm(outline)], "from": card.cut.came_from,
    }


def _said(why: Fact) -> str:
    return written.fact(why)
