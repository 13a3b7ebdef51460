"""What a label says: the values printed on it, made from cuts, bins and places."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stash.fact import fact
from stash.model import Bin, Cut, Notion, NotionKind
from stash.model.amounts import SIZE
from stash.quantity import Quantity
from stash.sentences import Reader, say
from stash.sentences.quantities import composition, shown
from stash.workroom.explaining import whole_mm


class LabelKind(StrEnum):
    """What the label is stuck on."""

    BLANK = "blank"
    CUT = "cut"
    BIN = "bin"
    PLACE = "place"


@dataclass(frozen=True, kw_only=True)
class Label:
    """One label: its code and up to five lines of words, in the person's units and language.

    ``size`` is remaining length x width for a cut, the size of the thing for a bin;
    ``notion`` lets a bin front draw what is inside.
    """

    code: str
    name: str = ""
    size: str = ""
    fibre: str = ""
    care: str = ""
    place: str = ""
    kind: LabelKind = LabelKind.BLANK
    notion: Notion | None = None


def blank(code: str) -> Label:
    """A label whose code is reserved and not yet given to anything."""
    return Label(code=code)


def for_cut(cut: Cut, reader: Reader) -> Label:
    """Name, remaining length x width at printing, fibres, how it is washed.

    Of a remnant the size is that of its largest rectangle: on that one can count.
    """
    length_mm, width_mm = whole_mm(cut.outline)
    return Label(
        code=cut.code,
        name=cut.cloth.name,
        size=f"{shown(length_mm, Quantity.CUT_LENGTH, reader)} × "
        f"{shown(width_mm, Quantity.WIDTH, reader)}",
        fibre=composition(cut.cloth.fibres, reader),
        care=care_line(cut.cloth.care, reader),
        place=cut.place or "",
        kind=LabelKind.CUT,
    )


def for_bin(bin_: Bin, reader: Reader) -> Label:
    """Name, size of the thing, what it is made of."""
    notion = bin_.notion
    return Label(
        code=bin_.code,
        name=notion.name,
        size=notion_size(notion, reader),
        fibre=notion.material,
        place=bin_.place or "",
        kind=LabelKind.BIN,
        notion=notion,
    )


def for_place(code: str, name: str) -> Label:
    """A shelf, box or drawer."""
    return Label(code=code, name=name, kind=LabelKind.PLACE)


def care_line(care: str, reader: Reader) -> str:
    """Care in plain words: a bare temperature, as on a wash tub, says that it is for washing.

    The tub's figure is the highest temperature of the wash in degrees Celsius (ISO 3758,
    from memory).
    """
    return say(fact("wash_at", care=care), reader) if care[:1].isdigit() else care


def notion_size(notion: Notion, reader: Reader) -> str:
    """A button in mm and lignes, a zip's length, a width for the rest, nothing for thread."""
    if notion.size_mm is None:
        return ""
    said = shown(notion.size_mm, SIZE[notion.kind], reader)
    if SIZE[notion.kind] is Quantity.BUTTON:
        return said
    kind = "label_so_long" if notion.kind is NotionKind.ZIP else "label_so_wide"
    return say(fact(kind, size=said), reader)
