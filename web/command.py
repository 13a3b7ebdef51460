"""The ``lengthwise`` command: joins the commands of all three packages."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.frame import Commands, Desk, default_data

MODULES = {
    "bin": "stash.cli.bin",
    "buttons": "stash.cli.buttons",
    "calibration": "labels.cli.calibration",
    "cut": "stash.cli.cut",
    "demo": "web.cli.demo",
    "draft": "stash.cli.draft",
    "fit": "stash.cli.fit",
    "keep": "stash.cli.keep",
    "labels": "labels.cli.labels",
    "lay": "stash.cli.lay",
    "like": "stash.cli.like",
    "need": "stash.cli.need",
    "pattern": "stash.cli.pattern",
    "person": "stash.cli.person",
    "place": "stash.cli.place",
    "plan": "stash.cli.plan",
    "scan": "labels.cli.scan",
    "serve": "web.cli.serve",
    "shop": "stash.cli.shop",
    "thread": "stash.cli.thread",
    "undo": "stash.cli.undo",
}


@click.command(cls=Commands, modules=MODULES)
@click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder that holds the stash [default: the user data folder, or LENGTHWISE_DATA].",
)
@click.version_option(package_name="lengthwise")
@click.pass_context
def main(ctx: click.Context, data: Path | None) -> None:
    """Know what cloth and notions you own, and what they can still become."""
    ctx.obj = Desk(data or default_data())
