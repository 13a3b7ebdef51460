"""Where a command may write: never over the record, and over a file only when told to."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

import click

from stash.cli.frame import Desk
from stash.errors import Conflict, InvalidInput, Unavailable

REPLACE = "stash.cli.output.replace"
LONGEST_NAME = 200


class OutputFile(click.ParamType):  # type: ignore[type-arg]  # generic from click 8.3 on
    """A file that a command writes, refused before any work is done."""

    name = "file"

    def convert(
        self, value: str | Path, param: click.Parameter | None, ctx: click.Context | None
    ) -> Path:
        """The path; InvalidInput or Conflict when it must not be written."""
        path = Path(value)
        desk = ctx.find_root().obj if ctx else None
        refuse(path, desk.data if isinstance(desk, Desk) else None,
               replace=bool(ctx and ctx.meta.get(REPLACE)))
        return path


def refuse(path: Path, data: Path | None, *, replace: bool) -> None:
    """InvalidInput inside the data folder, Conflict where there is a file already."""
    if not path.name or "\0" in str(path):
        raise InvalidInput("name_wanted")
    if len(os.fsencode(path.name)) > LONGEST_NAME:
        raise InvalidInput("name_too_long")
    if data is not None and _real(path).is_relative_to(_real(data)):
        raise InvalidInput("inside_data_folder", path=str(path))
    try:
        folder, file = path.is_dir(), path.is_file()
    except OSError as error:  # a name on the way to it is too long for any disk
        raise InvalidInput("cannot_be_written", path=str(path),
                           reason=error.strerror or str(error)) from error
    if folder:
        raise InvalidInput("is_a_folder", path=str(path))
    if file and not replace:
        raise Conflict("file_exists", path=str(path))


def write_output(path: Path, content: bytes | str) -> None:
    """Write a file whole or not at all: beside it first, then in its place."""
    data = content.encode("utf-8") if isinstance(content, str) else content
    special = path.exists() and not path.is_file()  # a pipe or a terminal
    draft = path if special else path.with_name(f".{path.name[:150]}.{os.getpid()}.part")
    try:
        draft.write_bytes(data)
        if not special:
            draft.replace(path)
    except OSError as error:
        if not special:
            with suppress(OSError):
                draft.unlink()
        raise Unavailable(
            "cannot_be_written", path=str(path), reason=error.strerror or str(error)) from error


def _real(path: Path) -> Path:
    """Links followed, as far as the path exists; its names as the disk holds them."""
    try:
        return Path(os.path.normcase(path.resolve()))
    except (OSError, RuntimeError) as error:
        raise InvalidInput("cannot_be_written", path=str(path), reason=str(error)) from error


def _told(ctx: click.Context, _param: click.Parameter, value: bool) -> None:
    ctx.meta[REPLACE] = value


output_file = OutputFile()
replace_option = click.option(
    "--replace", is_flag=True, is_eager=True, expose_value=False, callback=_told,
    help="Write over a file that is there already.",
)
