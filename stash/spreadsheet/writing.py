"""A table written as CSV, XLSX or ODS: numbers as numbers, texts as texts and never as formulae."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from stash.errors import InvalidInput
from stash.spreadsheet.cells import guarded

SheetCell = str | float | None
KINDS = {
    "csv": "text/csv",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "ods": "application/vnd.oasis.opendocument.spreadsheet",
}
WIDTH = 18
"""Of a column, in letters."""


def written(rows: Sequence[Sequence[SheetCell]], kind: str, *, sheet: str) -> bytes:
    """The file; ``kind`` is one of KINDS. InvalidInput for any other."""
    if kind not in KINDS:
        raise InvalidInput(
            "spreadsheet_kinds", typed=kind[:20], either_known=tuple(KINDS), field="file")
    return {"csv": _csv, "xlsx": _xlsx, "ods": _ods}[kind](rows, sheet)


def _csv(rows: Sequence[Sequence[SheetCell]], sheet: str) -> bytes:
    """RFC 4180 in UTF-8 with a byte-order mark, without which some spreadsheets read it wrong."""
    out = io.StringIO()
    writer = csv.writer(out)
    for row in rows:
        writer.writerow([guarded(cell) if isinstance(cell, str) else cell for cell in row])
    return out.getvalue().encode("utf-8-sig")


def _xlsx(rows: Sequence[Sequence[SheetCell]], sheet: str) -> bytes:
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    book = Workbook(write_only=True)
    page = book.create_sheet(sheet)
    page.freeze_panes = "A2"
    for at in range(len(rows[0])):
        page.column_dimensions[get_column_letter(at + 1)].width = WIDTH
    for number, row in enumerate(rows):
        cells = []
        for value in row:
            cell = WriteOnlyCell(page, value=value)
            if isinstance(value, str):
                cell.data_type = "s"
            if not number:
                cell.font = Font(bold=True)
            cells.append(cell)
        page.append(cells)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _ods(rows: Sequence[Sequence[SheetCell]], sheet: str) -> bytes:
    from odfdo import Document, Row, Table

    document = Document("spreadsheet")
    document.body.clear()
    table = Table(sheet)
    for values in rows:
        row = Row()
        row.set_values(list(values))
        table.append_row(row)
    document.body.append(table)
    out = io.BytesIO()
    document.save(out)
    return out.getvalue()
