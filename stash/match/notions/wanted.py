"""A notion that is wanted, the ways a stash can supply it, and the way chosen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from math import ceil

from stash.model import Bin, Closure, Cloth, Need, NotionKind
from stash.model.wire import need_json
from stash.units import System, format_button, format_length


class How(StrEnum):
    """How well a choice answers the need; exact first."""

    EXACT = "exact"
    NEAR = "near"
    FEWER = "fewer"
    MIXED = "mixed"
    FROM_CLOTH = "from cloth"


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """One need of one garment, with what a choice must suit.

    ``closure`` for the buttons of a front; ``cloth`` is what the notion goes with;
    ``lay_length_mm`` says how much of an interfacing bin the pieces take when really
    laid on its width, or None when they do not go on it.
    """

    garment: str
    need: Need
    closure: Closure | None = None
    cloth: Cloth | None = None
    cloth_width_mm: float | None = None
    lay_length_mm: Callable[[Bin], float | None] | None = None
    system: System = System.METRIC

    @property
    def colour(self) -> str | None:
        """The colour to match, when the need asks for it and the cloth's is recorded."""
        known = self.need.match_colour and self.cloth and self.cloth.colours
        return self.cloth.colours[0] if known else None

    @property
    def amount(self) -> float:
        """Count or millimetres, whichever the kind is reckoned in."""
        return float((self.need.count if self.need.kind.counted else self.need.length_mm) or 0)

    def written(self, amount: float) -> str:
        """An amount of this kind as a person says it."""
        if self.need.kind.counted:
            return f"{amount:.0f}"
        if self.need.kind is NotionKind.THREAD and self.system is System.METRIC:
            return f"{ceil(amount / 1000)} m"
        return format_length(amount, self.system)


@dataclass(frozen=True, kw_only=True)
class Choice:
    """One way to supply a need: what to take from which bins, and what it asks of the maker.

    ``cost`` orders choices, 0 for the very thing; ``parts`` are (bin code, amount).
    """

    how: How
    parts: tuple[tuple[str, float], ...]
    says: str
    cost: float
    positions_mm: tuple[float, ...] = ()
    buttonhole_mm: float | None = None

    def to_json(self) -> dict:
        """``{"how", "take": [{"bin", "amount"}], "says", ...}``."""
        return {
            "how": self.how.value,
            "take": [{"bin": code, "amount": round(amount, 1)} for code, amount in self.parts],
            "says": self.says,
            "positions_mm": [round(p, 1) for p in self.positions_mm],
            "buttonhole_mm": self.buttonhole_mm and round(self.buttonhole_mm, 1),
        }


@dataclass(frozen=True, kw_only=True)
class Line:
    """A need with the choice promised to it, or None when the stash cannot supply it."""

    wanted: Wanted
    chosen: Choice | None
    others: tuple[Choice, ...] = ()
    nearest: str = ""

    def to_json(self) -> dict:
        """The need, the choice, the other ways, and for a missing one what to buy."""
        return {
            "garment": self.wanted.garment,
            **need_json(self.wanted.need),
            "chosen": self.chosen and self.chosen.to_json(),
            "others": [choice.to_json() for choice in self.others],
            **({} if self.chosen else {"buy": what_to_buy(self.wanted), "nearest": self.nearest}),
        }


def what_to_buy(wanted: Wanted) -> str:
    """The shopping line: "7 buttons, 11.4 mm (18L), for the front"."""
    need, kind = wanted.need, wanted.need.kind
    if kind.counted:
        name = kind.value if need.count == 1 else f"{kind.value}s"
        parts = [f"{need.count} {name}"]
    else:
        parts = [f"{wanted.written(need.length_mm or 0.0)} of {kind.value}"]
    if need.size_mm:
        best = need.size_mm[1]
        size = format_button(best) if kind == "button" else format_length(best, wanted.system)
        parts.append(size if kind in {"button", "snap"} else f"{size} {_dimension(kind)}")
    if wanted.colour:
        parts.append(f"to match {wanted.cloth.name}")
    why = need.why if need.why.startswith("all ") else f"the {need.why}"
    return ", ".join([*parts, f"for {why} of the {wanted.garment}"])


def _dimension(kind: str) -> str:
    return "long" if kind == "zip" else "wide"
