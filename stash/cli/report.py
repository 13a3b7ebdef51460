"""``lengthwise report``: looking back at metres and money."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli import written
from stash.cli.frame import Desk, json_option, pass_desk, say
from stash.cli.open_record import open_record
from stash.cli.output import output_file, replace_option, write_output
from stash.workroom.report import By, CutLay, Report, report


@click.command()
@click.option("--by", type=click.Choice([by.value for by in By]), default=By.MONTH.value,
              show_default=True, help="What the rows are.")
@replace_option
@click.option("--csv", "table", type=output_file, help="Write the rows to a table (CSV).")
@json_option
@pass_desk
def command(desk: Desk, by: str, table: Path | None, as_json: bool) -> None:
    """Look back: cloth in, used, lost and given away, what lies idle, and each lay's waste."""
    with open_record(desk) as stash:
        found = report(stash, By(by))
    if table:
        write_output(table, "\ufeff" + found.csv())
    say(found.to_json(), _text(found), as_json=as_json)


def _text(found: Report) -> str:
    lines = [f"{'':<16} {'in':>10} {'used':>10} {'lost':>10} {'away':>10} {'waste':>10}"]
    for row in found.rows:
        shown = [written.cut_length(row.mm.get(way, 0.0)) for way in ("in", "used", "lost", "away")]
        cells = "".join(f" {cell:>10}" for cell in [*shown, written.cut_length(row.waste_mm)])
        lines.append(f"{row.key or '-':<16}{cells}")
    lines.append(f"Here now: {written.cut_length(found.here_mm)} of running cloth.")
    lines += [_lay(one) for one in found.lays[-10:]]
    if found.lays:
        home = found.published[0]
        lines.append(f"Home layouts use {home.least_pct:g} to {home.most_pct:g} % of the cloth "
                     f"({home.status}).")
    lines += [
        f"  untouched since {one.since}: {one.code}  {one.name}, {written.cut_length(one.mm)}"
        for one in found.idle[:5]
    ]
    return "\n".join(lines)


def _lay(one: CutLay) -> str:
    became = f"{one.utilisation:.0%} became pieces" if one.utilisation else "cut"
    rag = f", {one.rag_g:.0f} g of rag" if one.rag_g else ""
    return f"  {one.on}  {one.plan or ''}: {one.name} {one.code}, {became}{rag}"
