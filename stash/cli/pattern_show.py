"""``lengthwise pattern show``: a pattern shown, saved as a drawing or printed."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option
from stash.cli.pattern_said import piece_line, piece_value, save_pattern, save_sizes, saved_line
from stash.cli.words import _
from stash.model.wire import pattern_json
from stash.workroom import patterns

PAPERS = click.Choice(["a4", "letter", "a0"])


@click.command("show")
@click.argument("name")
@click.option("--version", type=int, help="An earlier version.")
@replace_option
@click.option("--svg", type=output_file, help="Save a full-size drawing.")
@click.option("--dxf", type=output_file, help="Save for a cutting program.")
@click.option("--tiled", nargs=2, type=(PAPERS, click.Path(path_type=Path)), metavar="PAPER FILE")
@click.option("--size", "sizes", multiple=True, metavar="SIZE=NAME",
              help="Write this pattern into the --dxf file as a size; give it for each size.")
@json_option
@pass_desk
def command(
    desk: Desk, name: str, version: int | None, svg: Path | None, dxf: Path | None,
    tiled: tuple[str, Path] | None, sizes: tuple[str, ...], as_json: bool,
) -> None:
    """Show a pattern; save it as a drawing or print it full size."""
    with open_record(desk) as stash:
        kept = patterns.kept(stash, name, version)
        graded = [(s.strip(), patterns.kept(stash, n.strip()).pattern)
                  for s, _is, n in (one.partition("=") for one in sizes)]
    pattern = kept.pattern
    saved = save_pattern(pattern, svg, None if graded else dxf, tiled)
    if graded and dxf:
        saved.append(save_sizes(graded, dxf, kept.name))
    value = {
        "pattern": kept.name, "version": kept.version, "source": kept.source,
        **pattern_json(pattern), "pieces": [piece_value(piece) for piece in pattern.pieces],
        "files": saved,
    }
    lines = [_(
        "{name}, version {version}",
        name=kept.name, version=kept.version,
    ), *map(piece_line, pattern.pieces)]
    say(value, "\n".join([*lines, *map(saved_line, saved)]), as_json=as_json)
