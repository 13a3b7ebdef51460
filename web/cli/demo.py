"""``lengthwise demo``: a stash to play with, and the app opened on it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import click

from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.words import _
from stash.demo import NAME, fill, is_another_stash
from stash.errors import Conflict
from stash.workroom.opening import open_stash


@click.command("demo")
@click.option("--no-serve", is_flag=True, help="Fill the folder and stop there.")
@click.option("--port", default=5000, show_default=True, help="Where the app answers.")
@json_option
@pass_desk
def command(desk: Desk, no_serve: bool, port: int, as_json: bool) -> None:
    """Fill the data folder with an invented workroom and open the app on it."""
    _refuse_foreign_files(desk.data)
    with open_stash(desk.data, who="demo") as stash:
        if is_another_stash(stash):
            raise Conflict("not_the_demo", folder=str(desk.data))
        made = fill(stash)
    say(made, _(
        "{loft} is ready in {data}: {cuts} cuts, {bins} bins, {people} people.",
        loft=NAME, data=desk.data, cuts=len(made['cuts']), bins=len(made['bins']),
        people=len(made['people']),
    ), as_json=as_json)
    if not no_serve:
        from web.serving import Serving, run  # the pages are loaded when they are to be answered

        run(desk.data, Serving(port=port, open_browser=True))


def _refuse_foreign_files(data: Path) -> None:
    with suppress(OSError):  # opening the stash will say what is wrong with it
        if data.is_dir() and any(data.iterdir()) and not (data / "stash.db").exists():
            raise Conflict("demo_folder_in_use", folder=str(data))
