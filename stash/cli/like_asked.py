"""What ``like`` asks and how its answer is said; it compares, and is loaded only when it does."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stash.cli import written
from stash.cli.cloth_options import colour
from stash.cli.frame import Desk, reader
from stash.cli.open_record import open_record
from stash.cli.words import _
from stash.sentences import Reader
from stash.sentences import say as said
from stash.units import parse_mass
from stash.workroom.questions.answer_json import like_json
from stash.workroom.questions.likeness import Likeness, Wish, ask_like
from stash.workroom.questions.plan_json import Json


def alike(desk: Desk, typed: Mapping[str, Any]) -> tuple[Json, str]:
    """The answer to the options typed, for a program and for a person."""
    mass, wanted = typed["mass"], typed["colour"]
    wish = Wish(colour=colour(wanted) if wanted else None, words=typed["words"],
                mass_gsm=parse_mass(mass) if mass else None)
    with open_record(desk) as stash:
        found, whose = ask_like(stash, wish, most=typed["most"]), reader()
    text = "\n".join(_line(like, whose) for like in found) or _("You own nothing like it.")
    return {"matches": [like_json(like, whose) for like in found]}, text


def _line(like: Likeness, whose: Reader) -> str:
    cut, told = like.cut, said(like.nearness, whose)
    size = written.size(cut.length_mm, cut.width_mm)
    line = f"{cut.code}  {cut.cloth.name}, {size}, {cut.place or _('no place yet')}"
    return written.of(line, told)
