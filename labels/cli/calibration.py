"""``lengthwise calibration``: print the sheet that lies beside what is photographed."""

from __future__ import annotations

from pathlib import Path

import click

from labels.calibration import PAPERS_MM, calibration_sheet_pdf
from stash.cli.frame import json_option, say
from stash.cli.output import output_file, replace_option, write_output
from stash.errors import InvalidInput
from stash.model.calibration import BOARD


@click.command("calibration")
@click.option("--sheets", default=1, show_default=True, help="How many different sheets.")
@click.option("--paper", type=click.Choice(list(PAPERS_MM)), default="a4", show_default=True)
@replace_option
@click.option("--out", required=True, type=output_file)
@json_option
def command(sheets: int, paper: str, out: Path, as_json: bool) -> None:
    """Print calibration sheets, by which photographs of pieces and remnants are measured."""
    if not 1 <= sheets <= BOARD.sheets:
        raise InvalidInput("sheets_to_print", most=BOARD.sheets, field="sheets")
    write_output(out, calibration_sheet_pdf(tuple(range(1, sheets + 1)), paper))
    say(
        {"file": str(out), "sheets": sheets, "ruler_mm": BOARD.ruler_mm},
        f"Saved {out}. Print it at 100 % and check its ruler of {BOARD.ruler_mm:.0f} mm.",
        as_json=as_json,
    )
