"""The ``lengthwise`` command: joins the commands of all three packages."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli.frame import Commands, Desk, default_data
from stash.cli.waits import say_what_is_waited_for

# name: the module that holds its ``command``, and its line in the list of commands.
COMMANDS = {
    "bin": ("stash.cli.bin", "Record bins of notions, and what is taken from them."),
    "buttons": ("stash.cli.buttons", "Space buttons on a front; say which counts hold it closed."),
    "calibration": (
        "labels.cli.calibration", "Print the sheet, tray or card that photographs need."),
    "colour": ("stash.cli.colour", "Tell the colour of something in a photograph."),
    "cut": ("stash.cli.cut", "Record cuts of cloth, and what is cut off them."),
    "demo": ("web.cli.demo", "Fill the folder with an invented workroom and open it."),
    "device": ("web.cli.device", "Pair phones with the stash, list them, revoke them."),
    "draft": ("stash.cli.draft", "Draft a garment from body measurements."),
    "far": ("stash.cli.far", "Say how long, wide, full or how many comes out of what is here."),
    "find": ("stash.cli.finding", "Find cuts and bins by words, in any of the three languages."),
    "fit": ("stash.cli.fit", "Find the cuts that make these garments, best first."),
    "keep": ("stash.cli.keep", "The earlier words for what “record” does."),
    "labels": ("labels.cli.labels", "Print labels for chosen cuts and bins, or blank ones."),
    "lay": ("stash.cli.lay", "Lay pieces on cloth: does it fit, and if not, why."),
    "like": ("stash.cli.like", "Find the cuts most like what is in your hand."),
    "need": ("stash.cli.need", "Say the shortest length of cloth found for garments."),
    "pattern": ("stash.cli.pattern", "Keep patterns of your own: import, trace, correct, print."),
    "person": ("stash.cli.person", "Record people and their body measurements."),
    "place": ("stash.cli.place", "Give shelves, boxes and drawers a label; see what lies there."),
    "plan": ("stash.cli.plan", "Plan garments and hold the cloth and notions for them."),
    "record": ("stash.cli.safekeeping", "Back the record up, check it, bring it back."),
    "report": ("stash.cli.report", "Look back: cloth in, used, lost, idle; each lay's waste."),
    "scan": ("labels.cli.scan", "Read labels from photographs, or watch a camera for them."),
    "serve": ("web.cli.serve", "Open the app on this computer, or for the whole network."),
    "settings": ("stash.cli.settings", "What is decided once: units, margins, the shop's widths."),
    "shop": ("stash.cli.shop", "Say what to buy: cloth at each width sold, and the notions."),
    "thread": ("stash.cli.thread", "Thread that seams take, needle and under thread apart."),
    "undo": ("stash.cli.undo", "Take back an entry of the ledger, the newest if none is named."),
}


@click.command(cls=Commands, table=COMMANDS)
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
    say_what_is_waited_for()
