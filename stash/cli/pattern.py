"""``lengthwise pattern``: patterns of her own, from files, photographs and paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.output import output_file, replace_option, write_output
from stash.cli.pattern_said import (
    candidate_line,
    piece_line,
    piece_value,
    read_file,
    reading_json,
    reading_text,
    renamed,
)
from stash.cli.record import open_record
from stash.errors import InvalidInput
from stash.model import Outline, Pattern
from stash.pattern.drawing import write_svg
from stash.pattern.drawn import Reading
from stash.pattern.dxf_writing import write_dxf
from stash.pattern.importing import read_pattern
from stash.pattern.print_pages import tiled_pdf
from stash.pattern.typed import parse_typed
from stash.pattern.width_table import parse_table
from stash.quantity import Quantity, read_length
from stash.units import format_length, format_width

PAPERS = click.Choice(["a4", "letter"])


@click.group()
def command() -> None:
    """Keep patterns of your own: import, trace from a photograph, or type them in."""


@command.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--name", help="What the pattern is called [default: the file's name].")
@click.option("--units", type=click.Choice(["mm", "cm", "in"]), help="One unit of the drawing.")
@click.option("--grain", type=click.Choice(["upright", "level"]), help="Where none is drawn.")
@json_option
@pass_desk
def import_(
    desk: Desk, file: Path, name: str | None, units: str | None, grain: str | None, as_json: bool
) -> None:
    """Import the pieces of an SVG or DXF file and keep them as a pattern."""
    reading = read_pattern(read_file(file), units, grain)
    _keep_reading(desk, name or file.stem, reading, file.name, as_json)


@command.command()
@click.argument("photos", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--name", help="Keep the pieces under this name; without it they are only shown.")
@click.option("--piece", "names", multiple=True, help="Names of the pieces, the largest first.")
@click.option("--ruler", help="What the sheet's printed ruler truly measures, if not 150 mm.")
@click.option("--grain", type=click.Choice(["longest", "sheet"]), default="longest")
@click.option("--cut", "code", help="Measure the remnant of this code instead, and record it.")
@json_option
@pass_desk
def trace(
    desk: Desk, photos: tuple[Path, ...], name: str | None, names: tuple[str, ...],
    ruler: str | None, grain: str, code: str | None, as_json: bool,
) -> None:
    """Trace paper pieces from photographs in which a printed calibration sheet lies."""
    # OpenCV takes a while to load, and the other commands of this group do without it.
    from stash.pattern.traced import trace_pieces

    data = [read_file(photo) for photo in photos]
    ruler_mm = read_length(ruler, Quantity.RULER, field="ruler") if ruler else None
    if code:
        _trace_remnant(desk, data, ruler_mm, code, as_json)
        return
    reading, errors = trace_pieces(data, ruler_mm=ruler_mm, grain=grain)
    named = replace(reading, pieces=renamed(reading.pieces, names))
    files = ", ".join(photo.name for photo in photos)
    if name:
        _keep_reading(desk, name, named, f"photograph {files}", as_json, errors)
    else:
        value = {"pattern": None, **reading_json(named, errors)}
        say(value, reading_text("Not kept (give it a --name)", named), as_json=as_json)


def _trace_remnant(
    desk: Desk, data: Sequence[bytes], ruler_mm: float | None, code: str, as_json: bool
) -> None:
    """Measure what is left of a cut and record it as the cut's shape."""
    from stash.eye.outlines.remnant import trace_remnant

    if len(data) != 1:
        raise InvalidInput("A remnant is measured from one photograph.", field="photos")
    traced = trace_remnant(data[0], ruler_mm=ruler_mm)
    with open_record(desk) as stash:
        event = stash.cuts.remeasure(code, traced.outline)
    value = {"cut": event.code, "error_mm": traced.error_mm, **traced.outline.to_json()}
    size = f"{format_length(traced.outline.length_mm)} x {format_width(traced.outline.width_mm)}"
    say(value, f"{event.code} measured: {size}, within {traced.error_mm:.0f} mm.", as_json=as_json)


@command.command()
@click.argument("name")
@click.option(
    "--piece", "lines", multiple=True, required=True, metavar="LINE",
    help="For example “front, 104cm x 30cm, cut 2, mirrored”, or several widths from the top "
    "down: “back, 70cm x 20cm-28cm, on fold”.",
)
@json_option
@pass_desk
def add(desk: Desk, name: str, lines: tuple[str, ...], as_json: bool) -> None:
    """Type in the pieces of a paper pattern as rectangles or by their widths."""
    pieces = tuple(map(parse_typed, lines))
    if len({piece.name for piece in pieces}) < len(pieces):
        raise InvalidInput("Two pieces have the same name.", field="piece")
    sizes = tuple((Outline(p.outline_mm).width_mm, Outline(p.outline_mm).length_mm) for p in pieces)
    _keep_reading(desk, name, Reading(pieces, sizes), "typed", as_json)


@command.command("list")
@json_option
@pass_desk
def list_(desk: Desk, as_json: bool) -> None:
    """List the patterns on record."""
    with open_record(desk) as stash:
        kept = stash.patterns.all()
    value = [
        {"pattern": k.name, "version": k.version, "source": k.source,
         "pieces": [p.name for p in k.pattern.pieces]}
        for k in kept
    ]
    lines = [f"{k.name}, version {k.version}, {len(k.pattern.pieces)} pieces" for k in kept]
    say({"patterns": value}, "\n".join(lines) or "No patterns yet.", as_json=as_json)


@command.command()
@click.argument("name")
@click.option("--version", type=int, help="An earlier version.")
@replace_option
@click.option("--svg", type=output_file, help="Save a full-size drawing.")
@click.option("--dxf", type=output_file, help="Save for a cutting program.")
@click.option("--tiled", nargs=2, type=(PAPERS, click.Path(path_type=Path)), metavar="PAPER FILE")
@json_option
@pass_desk
def show(
    desk: Desk, name: str, version: int | None, svg: Path | None, dxf: Path | None,
    tiled: tuple[str, Path] | None, as_json: bool,
) -> None:
    """Show a pattern; save it as a drawing or print it full size."""
    with open_record(desk) as stash:
        kept = stash.patterns.kept(name, version)
    pattern = kept.pattern
    files = [(svg, lambda: write_svg(pattern).encode())] if svg else []
    files += [(dxf, lambda: write_dxf(pattern))] if dxf else []
    files += [(tiled[1], lambda: tiled_pdf(pattern, tiled[0]))] if tiled else []
    for path, content in files:
        write_output(path, content())
    value = {
        "pattern": kept.name, "version": kept.version, "source": kept.source,
        "pieces": [piece_value(piece) for piece in pattern.pieces],
        "files": [str(path) for path, _ in files],
    }
    lines = [f"{kept.name}, version {kept.version}", *map(piece_line, pattern.pieces)]
    say(value, "\n".join([*lines, *(f"Saved {path}" for path, _ in files)]), as_json=as_json)


@command.command()
@click.argument("rows", nargs=-1, required=True, metavar="WIDTH=LENGTH...")
@click.option("--width", help="Only say the length needed at this width.")
@json_option
@pass_desk
def table(desk: Desk, rows: tuple[str, ...], width: str | None, as_json: bool) -> None:
    """Estimate by a printed table of cloth widths and lengths: which cuts are long enough?

    For example 114cm=2.5m 150cm=1.9m.
    """
    printed = parse_table(rows)
    if width:
        found = printed.need_mm(read_length(width, Quantity.WIDTH, field="width"))
        value = {"length_mm": found.length_mm, "reason": found.reason, "estimate": True}
        say(value, f"{format_length(found.length_mm)}. {found.reason}", as_json=as_json)
        return
    with open_record(desk) as stash:
        cuts = stash.cuts.all()
    enough, set_aside = [], []
    for cut in cuts:
        outline = cut.outline_washed
        try:
            need = printed.need_mm(outline.width_mm)
        except InvalidInput as error:
            set_aside.append({"cut": cut.code, "reason": str(error)})
            continue
        enough.append({
            "cut": cut.code, "name": cut.cloth.name, "fits": outline.length_mm >= need.length_mm,
            "spare_mm": outline.length_mm - need.length_mm, "reason": need.reason,
        })
    enough.sort(key=lambda e: (not e["fits"], abs(e["spare_mm"])))
    lines = [candidate_line(e) for e in enough if e["fits"]]
    text = "\n".join(["By the printed table, an estimate:", *lines]) if lines else (
        "By the printed table, no cut is long enough."
    )
    say({"estimate": True, "candidates": enough, "set_aside": set_aside}, text, as_json=as_json)


def _keep_reading(
    desk: Desk, name: str, reading: Reading, source: str, as_json: bool,
    errors: Sequence[float] = (),
) -> None:
    """Keep a new version of a pattern and say what is in it."""
    pattern = Pattern(garment=name, pieces=reading.pieces)
    with open_record(desk) as stash:
        stash.patterns.save(name, pattern, source=source)
        kept = stash.patterns.kept(name)
    value = {"pattern": kept.name, "version": kept.version, **reading_json(reading, errors)}
    say(value, reading_text(f"Kept {kept.name}, version {kept.version}", reading), as_json=as_json)
