"""``lengthwise pattern trace``: paper pieces and remnants measured in photographs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from stash.cli import written
from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.input import read_file
from stash.cli.instead import only_one
from stash.cli.open_record import open_record
from stash.cli.pattern_said import kept_title, reading_json, reading_text
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.quantity import Quantity, read_length
from stash.workroom import cuts, patterns
from stash.workroom.grain import GrainBy

if TYPE_CHECKING:
    from stash.workroom.tracing import PaperMarks, TracedOver

EVERY = "all"


@click.command("trace")
@click.argument("photos", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--name", help="Keep the pieces under this name; without it they are only shown.")
@click.option("--piece", "names", multiple=True, help="Names of the pieces, the largest first.")
@click.option("--ruler", help="What the sheet's printed ruler truly measures, if not 150 mm.")
@click.option("--grain", type=click.Choice(["longest", "sheet", "arrow"]), default="longest",
              help="Along a piece's longest axis, the sheet's long side, or the arrow drawn on it.")
@click.option("--notch", "notches", multiple=True, metavar="PIECE.NUMBER",
              help="Keep a notch that was seen on the paper, such as 1.2; “all” keeps every one.")
@click.option("--cut", "code", help="Measure the remnant of this code instead, and record it.")
@json_option
@pass_desk
def command(
    desk: Desk, photos: tuple[Path, ...], name: str | None, names: tuple[str, ...],
    ruler: str | None, grain: str, notches: tuple[str, ...], code: str | None, as_json: bool,
) -> None:
    """Trace paper pieces from photographs in which a printed calibration sheet lies."""
    # OpenCV takes a while to load, and the other commands of this group do without it.
    from stash.workroom.tracing import as_kept, trace_over

    only_one(name=name, cut=code)
    data = [read_file(photo) for photo in photos]
    ruler_mm = read_length(ruler, Quantity.RULER, field="ruler") if ruler else None
    if code:
        _trace_remnant(desk, data, ruler_mm, code, as_json)
        return
    found = trace_over(data, ruler_mm=ruler_mm)
    reading = as_kept(found, grain, _wanted(notches, found))
    reading = replace(reading, pieces=patterns.renamed(reading.pieces, names))
    head: dict[str, object] = {"pattern": None}
    title = _("Not kept (give it a --name)")
    if name:
        source = _("photograph {files}", files=", ".join(photo.name for photo in photos))
        with open_record(desk) as stash:
            _event, kept = patterns.keep(
                stash, name, reading.pieces, source,
                photographs=[under.jpeg for under in found.under])
        head, title = {"pattern": kept.name, "version": kept.version}, kept_title(kept)
    extra = [{"error_mm": error, "seen": _seen_json(seen)}
             for error, seen in zip(found.errors_mm, found.drawn, strict=True)]
    value = {**head, **reading_json(reading, extra)}
    text = [reading_text(title, reading), *_seen_lines(found, notches)]
    say(value, "\n".join(text), as_json=as_json)


def _wanted(typed: Sequence[str], found: TracedOver) -> set[tuple[int, int]]:
    """The notches that were asked for, as (piece, notch) from 0."""
    seen = {f"{n + 1}.{k + 1}": (n, k) for n, marks in enumerate(found.drawn)
            for k in range(len(marks.notches))}
    asked = list(seen) if EVERY in typed else typed
    if unknown := next((one for one in asked if one not in seen), None):
        raise InvalidInput("no_such_seen_notch", typed=unknown, known=tuple(seen), field="notch")
    return {seen[one] for one in asked}


def _seen_json(marks: PaperMarks) -> dict[str, object]:
    """The notches and the arrow on one piece, in its frame along its longest axis."""
    grain = marks.grain
    return {
        "notches": [{"kind": notch.kind, "at_mm": _place(notch.at_mm),
                     "inward_mm": _place(notch.inward_mm)} for notch in marks.notches],
        "grain_deg": None if grain is None else round(grain.turn_deg, 2),
    }


def _place(point: tuple[float, float]) -> list[float]:
    return [round(point[0], 2), round(point[1], 2)]


def _seen_lines(found: TracedOver, asked: Sequence[str]) -> list[str]:
    """What is offered and was not asked for."""
    lines = []
    for n, marks in enumerate(found.drawn):
        if marks.notches and EVERY not in asked:
            numbers = ", ".join(f"{n + 1}.{k + 1}" for k in range(len(marks.notches)))
            lines.append(_("Notches seen on piece {number}: {numbers} (--notch keeps them)",
                           number=n + 1, numbers=numbers))
        if marks.grain:
            lines.append(_("An arrow on piece {number} runs at {degrees}° (--grain arrow)",
                           number=n + 1, degrees=format(marks.grain.turn_deg, ".1f")))
    return lines


GRAIN_SAID = {
    "arrow": "The arrow card tells the grain.",
    "longest": "Its grain is presumed along the longest axis: lay the arrow card on it to know.",
}


def _trace_remnant(
    desk: Desk, data: Sequence[bytes], ruler_mm: float | None, code: str, as_json: bool
) -> None:
    """Measure what is left of a cut and record it as the cut's shape."""
    from stash.workroom.tracing import trace_remnant

    traced = trace_remnant(data, ruler_mm=ruler_mm)
    with open_record(desk) as stash:
        code = cuts.traced(
            stash, code, traced.outline, traced.error_mm, grain=GrainBy(traced.grain),
            selvedges_mm=traced.selvedges).now.cut.code
    value = {
        "cut": code, "error_mm": traced.error_mm, **traced.outline.to_json(),
        "grain": traced.grain, "grain_error_deg": traced.grain_error_deg,
        "selvedges_mm": [[list(end) for end in edge] for edge in traced.selvedges],
    }
    size = written.piece_size(traced.outline.length_mm, traced.outline.width_mm)
    say(value, _(
        "{code} measured: {size}, within {error_mm} mm. {grain}",
        code=written.labelled(code), size=size, error_mm=round(traced.error_mm),
        grain=_(GRAIN_SAID[traced.grain]),
    ), as_json=as_json)
