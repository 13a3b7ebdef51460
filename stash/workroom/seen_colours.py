"""A colour told by a photograph is put on record, with how sure it is.

Of two photographs the surer one stays: warm light does not overrule daylight. What was chosen
by eye, from a name or a picker, gives way to either.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stash.errors import InvalidInput, SurerFigure
from stash.eye.colour.difference import apart, is_colour
from stash.eye.colour.photographed import SeenColour
from stash.ledger import CutState, Entry, Event, Kind
from stash.model import Bin, Cut
from stash.store import Stash
from stash.workroom.origins import colour_subject, own_colours


def keep_seen_colour(
    stash: Stash, code: str, seen: SeenColour, token: str | None = None, *,
    replace_surer: bool = False,
) -> Event:
    """It is the colour of what is in a bin, or of a cut's cloth: of a print, the one nearest it.

    Raises InvalidInput where no greys were seen, SurerFigure where a surer photograph is on
    record and is not to be replaced.
    """
    if not seen.light.known:
        raise InvalidInput("colour_too_unsure", field="code")
    subject, thing = colour_subject(stash, code), _thing(stash, code)
    known = stash.ledger.record(subject)
    if known and known["colour"] in own_colours(thing) and not replace_surer:
        _spare_surer(code, known["error_de00"], seen.error_de00)
    with stash.act(token) as act:
        _describe(stash, thing, seen.colour)
        note_seen_colour(stash, code, seen, Kind.CORRECTION)
    done = act.event or act.earlier
    assert done is not None
    return done


def note_seen_colour(stash: Stash, code: str, seen: SeenColour, kind: Kind) -> None:
    """Beside what sets a colour, within the same act: how sure the photograph of it was."""
    kept = {"colour": seen.colour, "error_de00": seen.error_de00, "light": seen.light.value}
    change = {colour_subject(stash, code): {"record": kept}}
    stash.ledger.write(lambda: Entry(kind=kind, code=code, change=change))


def with_colour(colours: Sequence[str], colour: str) -> tuple[str, ...]:
    """The colours of a cloth, the one that is nearest to ``colour`` replaced by it."""
    known = [own for own in colours if is_colour(own)]
    if not known:
        return (colour, *colours[1:])
    near = min(known, key=lambda own: apart(own, colour))
    return tuple(colour if own == near else own for own in colours)


def _spare_surer(code: str, recorded: float, new: float) -> None:
    if recorded < new:
        raise SurerFigure(
            "better_on_record_colour", code=code, recorded_number=recorded, new_number=new)


def _describe(stash: Stash, thing: Cut | Bin, colour: str) -> None:
    if isinstance(thing, Cut):
        cloth = thing.cloth
        stash.cloths.correct(thing.code, replace(
            cloth, colours=with_colour(cloth.colours, colour)))
    else:
        stash.bins.correct(thing.code, replace(thing.notion, colour=colour))


def _thing(stash: Stash, code: str) -> Cut | Bin:
    is_cut = isinstance(stash.ledger.state(code), CutState)
    return stash.cuts.get(code) if is_cut else stash.bins.get(code)
