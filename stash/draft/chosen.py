"""What is chosen for several garments at once: each option belongs to one of them.

``GARMENT.OPTION`` names it; a bare ``OPTION`` is enough where only one of the garments
takes it, and for the ways of sewing that garments share: words, and the seam allowance.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.draft.catalogue import GarmentInfo, about
from stash.draft.garment import Measure, Option
from stash.errors import InvalidInput

SHARED = ("seam",)
Chosen = dict[str, dict[str, object]]


def key_of(garment: str, option: str) -> str:
    """How an option of one garment is written: ``shirt.length``."""
    return f"{garment}.{option}"


def by_garment(garments: Sequence[str], given: Mapping[str, object]) -> Chosen:
    """Options by the name of their garment, from ``{"shirt.length": ..., "seam": ...}``.

    InvalidInput when none of the garments takes an option, when a garment that is named is
    not among them, and when a bare length could be meant for several.
    """
    infos = {info.name: info for info in map(about, garments)}
    chosen: Chosen = {name: {} for name in infos}
    for key, value in given.items():
        whose, dot, option = key.rpartition(".")
        takers = [_named(infos, whose, key)] if dot else list(infos.values())
        takers = [info for info in takers if _option(info, option)]
        _check(infos, takers, key, option)
        for info in takers:
            chosen[info.name].setdefault(option, value)
    for key, value in given.items():  # what is named wins over what is not
        whose, dot, option = key.rpartition(".")
        if dot:
            chosen[about(whose).name][option] = value
    return chosen


def _named(infos: Mapping[str, GarmentInfo], whose: str, key: str) -> GarmentInfo:
    name = "-".join(whose.lower().replace("_", " ").replace("-", " ").split())
    if name not in infos:
        raise InvalidInput(
            "option_of_no_garment_here", option=key, either=tuple(infos) or ("none",), field=key
        )
    return infos[name]


def _check(
    infos: Mapping[str, GarmentInfo], takers: Sequence[GarmentInfo], key: str, option: str
) -> None:
    if not takers:
        known = {key_of(i.name, o.name) if len(infos) > 1 else o.name
                 for i in infos.values() for o in i.options}
        raise InvalidInput(
            "no_such_option", option=key, known=tuple(sorted(known)) or ("none",),
            field=key,
        )
    lengths = [i for i in takers if isinstance(_option(i, option), Measure)]
    if len(lengths) > 1 and option not in SHARED:
        raise InvalidInput(
            "option_of_which_garment", option=option,
            either=tuple(key_of(i.name, option) for i in takers), field=key,
        )


def _option(info: GarmentInfo, name: str) -> Option | None:
    return next((o for o in info.options if o.name == name), None)
