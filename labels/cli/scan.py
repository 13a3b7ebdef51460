"""``lengthwise scan``: read labels from photographs or a camera."""

from __future__ import annotations

import json
import os
import sys
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import chain
from pathlib import Path
from typing import Any

import click

from labels.camera import frames, newcomers, sights
from labels.cli.recording import described, record_use
from labels.reading.photographs import FileResult, photographs, read_file
from labels.reading.readings import LabelReading
from stash.cli.frame import Desk, json_option, pass_desk, say, told
from stash.errors import InvalidInput


@click.command("scan")
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path), metavar="FILE|FOLDER...")
@click.option(
    "--camera",
    "source",
    metavar="SOURCE",
    help="Watch a camera (0, 1, ...) instead; a video file will do.",
)
@click.option("--open", "opens", is_flag=True, help="Open each label in the browser.")
@click.option(
    "--at",
    default="http://127.0.0.1:5000",
    show_default=True,
    help="Where the app is running, for --open.",
)
@click.option("--record", "records", is_flag=True, help="Ask of each label how much was used.")
@json_option
@pass_desk
def command(desk: Desk, /, paths: tuple[Path, ...], source: str | None, **options: Any) -> None:
    """Read labels from photographs, or watch a camera for them.

    A folder stands for the pictures in it. With --camera and --json each label is one
    line, told when it comes into view.
    """
    if (source is None) == (not paths):
        raise InvalidInput("photographs_or_camera")
    if source is None:
        _scan_files(paths, options["as_json"])
    else:
        for reading in _watched(source):
            as_json = options["as_json"]
            click.echo(json.dumps(reading.to_json()) if as_json else described(desk, reading.code))
            sys.stdout.flush()
            if options["opens"]:
                webbrowser.open(f"{options['at'].rstrip('/')}/c/{reading.code}")
            if options["records"]:
                record_use(desk, reading.code)


def _scan_files(paths: tuple[Path, ...], as_json: bool) -> None:
    results = [read_file(path) for path in photographs(paths)]
    if not results:
        raise InvalidInput("no_pictures_in_folder")
    say(
        {"results": [r.to_json(told) for r in results]},
        "\n".join(_line(r) for r in results),
        as_json=as_json,
    )
    if not any(r.readings for r in results):
        sys.exit(1)


def _line(result: FileResult) -> str:
    said = ", ".join(r.code for r in result.readings)
    said = said or (told(result.error) if result.error else "")
    return f"{result.file}: {said}" + (f" ({told(result.hint)})" if result.hint else "")


def _watched(source: str) -> Iterator[LabelReading]:
    """Each label as it comes into view, until the film ends or the person stops it."""
    pictures = frames(source)
    with _quiet_backends():
        first = next(pictures)
    try:
        yield from newcomers(sights(chain([first], pictures)))
    except KeyboardInterrupt:
        click.echo("Stopped.", err=True)


@contextmanager
def _quiet_backends() -> Iterator[None]:
    """Keep the camera libraries' own chatter off the terminal; ours is one sentence."""
    kept = os.dup(2)
    with Path(os.devnull).open("w") as nowhere:
        os.dup2(nowhere.fileno(), 2)
        try:
            yield
        finally:
            os.dup2(kept, 2)
            os.close(kept)
