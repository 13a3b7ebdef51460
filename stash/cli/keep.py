"""``lengthwise keep``: the whole stash in one file, and whether the record is sound."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.record import open_record
from stash.errors import Unavailable
from stash.workroom import keeping

file = click.argument("file", type=click.Path(dir_okay=False, path_type=Path))


@click.group()
def command() -> None:
    """Keep the stash safe: write it to one file, bring it back, check it."""


@command.command()
@file
@json_option
@pass_desk
def copy(desk: Desk, file: Path, as_json: bool) -> None:
    """Write the whole stash, photographs too, to FILE (a zip)."""
    with open_record(desk) as stash:
        count = keeping.write_backup(stash, file)
    size = file.stat().st_size
    say(
        {"file": str(file), "events": count, "bytes": size},
        f"{count} entries of the ledger and all photographs are in {file} ({size:,} bytes).",
        as_json=as_json,
    )


@command.command()
@file
@json_option
@pass_desk
def bring(desk: Desk, file: Path, as_json: bool) -> None:
    """Bring a stash from FILE into an empty data folder.

    FILE was written by "keep copy", or is one of the daily copies that "keep copies" lists.
    """
    with open_record(desk) as stash:
        taken = keeping.bring_backup(stash, file)
    lost = f" {taken.photos_lost} were damaged and are missing." if taken.photos_lost else ""
    say(
        {"file": str(file), **asdict(taken)},
        f"{taken.events} entries and {taken.photos} picture files were brought in.{lost}",
        as_json=as_json,
    )


@command.command()
@file
@json_option
@pass_desk
def table(desk: Desk, file: Path, as_json: bool) -> None:
    """Write the cuts and bins that are here to FILE, a table for a spreadsheet (CSV)."""
    with open_record(desk) as stash:
        text = keeping.table(stash)
    try:
        file.write_text(text, encoding="utf-8-sig", newline="")
    except OSError as error:
        raise Unavailable(f"{file} cannot be written ({error.strerror or error}).") from error
    say({"file": str(file)}, f"The table is in {file}.", as_json=as_json)


@command.command("copies")
@json_option
@pass_desk
def copies_(desk: Desk, as_json: bool) -> None:
    """List the copies of the record that are made once a day it is used, newest first."""
    with open_record(desk) as stash:
        found = [str(path) for path in keeping.daily_copies(stash)]
    text = "\n".join(found) or "There is no copy yet; the first is made tomorrow."
    say({"copies": found}, text, as_json=as_json)


@command.command()
@json_option
@pass_desk
def check(desk: Desk, as_json: bool) -> None:
    """Check the file, work everything out again from the ledger, and compare."""
    with open_record(desk) as stash:
        things = keeping.check(stash)
    say(
        {"subjects": things, "sound": True},
        f"The record is sound: {things} things agree with the ledger.",
        as_json=as_json,
    )
