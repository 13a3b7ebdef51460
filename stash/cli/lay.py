"""``lengthwise lay``: lay pieces from a file on a cloth given by its measures."""

from __future__ import annotations

import json
import re
import time
from pathlib import Path
from typing import Any

import click

from stash.cli import written
from stash.cli.frame import FloatRange, json_option, reader, say
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Repeat, Spread
from stash.model.wire import lay_json
from stash.quantity import (
    Quantity,
    read_length,
    read_length_or_nothing,
    read_size,
)
from stash.sentences.saying import piece_named
from stash.workroom.laying import (
    GivenCloth,
    LaidOut,
    LayAnswer,
    Layers,
    Margins,
    MatchingCost,
    Searching,
    lay_out,
)

Typed = dict[str, Any]
LARGEST_FILE = 20_000_000
SPREADS = {"open": Spread.OPEN, "lengthwise": Spread.LENGTHWISE, "crosswise": Spread.CROSSWISE,
           "best": None}


@click.command()
@click.option("--pieces", "pieces_file", required=True, help="JSON file of the pieces.")
@click.option("--width", help="Usable width, for example 114cm.")
@click.option("--length", help="Length of the cut; left out, the shortest length is looked for.")
@click.option("--outline", "outline_file", help="JSON file with the outline of an irregular cut.")
@click.option("--turns", help="Turns every piece may take, for example 0,180.")
@click.option("--one-way", is_flag=True, help="Nap or print: all pieces the same way up.")
@click.option("--spread", type=click.Choice(list(SPREADS)), default="open", show_default=True)
@click.option("--repeat", help="Repeat of the print, lengthwise x crosswise: 64cm x 32cm; the "
              "pieces' match_points_mm lie on it, or their (0, 0) when none has any.")
@click.option("--half-drop", is_flag=True, help="Every second column begins half a repeat later.")
@click.option("--clearance", default="0mm", show_default=True, help="Room between pieces.")
@click.option("--edge", default="0mm", show_default=True, help="Room along the edges.")
@click.option("--off-grain", type=FloatRange(0, 15), default=0.0, show_default=True,
              help="Degrees that pieces may be tilted off the grain.")
@click.option("--seconds", type=FloatRange(0, 3600), default=5.0, show_default=True)
@click.option("--seed", type=click.IntRange(0, 2**31), default=1, show_default=True)
@click.option("--iterations", type=click.IntRange(0), help="Stop after so much searching.")
@click.option("--workers", type=click.IntRange(1, 64), default=1, show_default=True)
@replace_option
@click.option("--svg", type=output_file, help="Write the drawing to this file.")
@json_option
def command(
    pieces_file: str, outline_file: str | None, svg: Path | None, as_json: bool, **typed: Any
) -> None:
    """Lay pieces on cloth: does it fit, and if not, why; or the shortest length."""
    started = time.monotonic()
    outline = _read(outline_file) if outline_file else None
    found = lay_out(
        _read(pieces_file), _turns(typed["turns"]) if typed["turns"] else (),
        _cloth(outline, typed), _margins(typed), _searching(typed))
    matching = found.matching
    if svg and found.answer.lay:
        write_output(svg, found.svg(_matching_words(matching)))
    value = _value(found.answer, time.monotonic() - started)
    if matching is not None:
        value["matching_costs_mm"] = matching.costs_mm
    if found.spreads:
        value["spreads"] = [one.to_json() for one in found.spreads]
    say(value, _text(found), as_json=as_json)


def _cloth(outline: object, typed: Typed) -> GivenCloth:
    return GivenCloth(
        width_mm=_read_as(typed, "width", Quantity.WIDTH),
        length_mm=_read_as(typed, "length", Quantity.CUT_LENGTH), outline=outline,
        one_way=typed["one_way"], spread=SPREADS[typed["spread"]],
        repeat=_repeat(typed["repeat"], typed["half_drop"]),
    )


def _margins(typed: Typed) -> Margins:
    return Margins(
        clearance_mm=_margin(typed["clearance"]), edge_mm=_margin(typed["edge"]),
        off_grain_deg=typed["off_grain"],
    )


def _searching(typed: Typed) -> Searching:
    return Searching(
        seconds=typed["seconds"], seed=typed["seed"], iterations=typed["iterations"],
        workers=typed["workers"],
    )


def _read(file: str) -> object:
    path = Path(file)
    try:
        if path.stat().st_size > LARGEST_FILE:
            raise InvalidInput("pieces_file_too_large", file=path.name)
        return json.loads(path.read_text(encoding="utf-8"))
    except OSError:
        raise InvalidInput("file_unreadable", file=file) from None
    except (ValueError, RecursionError):
        raise InvalidInput("file_not_json", file=path.name) from None


def _turns(text: str) -> tuple[float, ...]:
    if not re.fullmatch(r"\s*-?\d+(\.\d+)?(\s*,\s*-?\d+(\.\d+)?){0,15}\s*", text):
        raise InvalidInput("not_turns", typed=text[:60], field="turns")
    return tuple(float(t) % 360 for t in text.split(","))


def _repeat(text: str | None, half_drop: bool) -> Repeat | None:
    if not text:
        return None
    along, across = read_size(text, Quantity.REPEAT, Quantity.REPEAT, field="repeat")
    return Repeat(lengthwise_mm=along or None, crosswise_mm=across or None, half_drop=half_drop)


def _read_as(typed: Typed, name: str, quantity: Quantity) -> float | None:
    return read_length(typed[name], quantity, field=name) if typed[name] else None


def _margin(text: str) -> float:
    return read_length_or_nothing(text, Quantity.MARGIN, field="margin")


def _value(answer: LayAnswer, seconds: float) -> dict[str, Any]:
    lay = answer.lay and lay_json(answer.lay)
    return {
        "answer": answer.verdict.value,
        "verdict": answer.to_json(),
        "length_mm": lay and lay["length_mm"],
        "utilisation": lay and lay["utilisation"],
        "reason": written.fact(answer.told),
        "short_mm": answer.short_mm,
        "spread": lay and lay["spread"],
        "fold_mm": lay and lay["fold_mm"],
        "placements": lay["placements"] if lay else [],
        "iterations": answer.sweeps,
        "seconds": round(seconds, 3),
    }


def _text(found: LaidOut) -> str:
    lines = [written.of(_(found.answer.verdict.value), written.fact(found.answer.told))]
    if words := _matching_words(found.matching):
        lines.append(words)
    lines += [
        _(
            "  {spread}: {length}, {cuts} to cut",
            spread=_(one.spread.value), length=written.cut_length(one.answer.lay.length_mm),
            cuts=one.cuts,
        )
        for one in found.spreads if one.answer.lay
    ]
    if found.positions:
        lines.append(_("Where each piece begins, from the end and from the selvedge:"))
    for p in found.positions:
        label = f"{piece_named(p.name, reader())} {p.numbers}".strip()
        how = [_("turned {turn}", turn=written.turn(p.turn_deg))] if p.turn_deg else []
        how += [_("turned over")] if p.mirrored else []
        how += [_(p.layers.value)] if p.layers is not Layers.ONE else []
        lines.append(
            _(
                "  {label}: {from_end}, {from_selvedge}; {how}",
                label=label,
                from_end=written.tape(p.from_end_mm),
                from_selvedge=written.tape(p.from_selvedge_mm),
                how=", ".join(how or [_("not turned")]),
            )
        )
    return "\n".join(lines)


def _matching_words(matching: MatchingCost | None) -> str:
    if matching is None or matching.costs_mm is None:
        return ""
    assert matching.matched.lay and matching.plain.lay  # a cost is the difference of two lays
    if matching.costs_mm < 1:
        either = written.cut_length(matching.matched.lay.length_mm)
        return _(
            "Matching the print takes no more cloth than leaving it: {either} either way.",
            either=either,
        )
    return (
        _(
            "Matching the print takes {length} of cloth: without it the shortest length found "
            "is {plain}.",
            length=written.cut_length(matching.costs_mm),
            plain=written.cut_length(matching.plain.lay.length_mm),
        )
    )
