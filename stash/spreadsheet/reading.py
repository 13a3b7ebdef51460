"""A spreadsheet's first sheet as text, told by what the file is and not by its name."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable
from itertools import islice

from stash.errors import InvalidInput
from stash.foreign import read_apart
from stash.foreign.limits import TABLE
from stash.spreadsheet.cells import (
    MOST_COLUMNS,
    MOST_ROWS,
    CellRow,
    CellTable,
    cell_text,
    table_of,
    tidied,
)

LARGEST_BYTES = 8_000_000
MOST_UNPACKED_BYTES = 200_000_000
"""Of all parts of one together, as it says itself; looked at before anything is unpacked."""
WESTERN = ("cp1252", "cp1250", "mac_roman")
"""What spreadsheets wrote before UTF-8, as far as these three languages are written in it."""
OPEN_DOCUMENT = b"application/vnd.oasis.opendocument.spreadsheet"
SEPARATORS = ",;\t"


def read_spreadsheet(content: bytes) -> CellTable:
    """The first sheet with anything in it; InvalidInput when it is none that can be read.

    It is read in a process of its own, which may take so much time and memory and no more.
    """
    if len(content) > LARGEST_BYTES:
        raise InvalidInput(
            "spreadsheet_too_large", most_mb=LARGEST_BYTES / 1e6, field="file")
    return read_apart(TABLE, cells_in, content)


def cells_in(content: bytes) -> CellTable:
    """As :func:`read_spreadsheet`, here and now."""
    if content[:4] == b"PK\x03\x04":
        return _of_zip(content)
    if content[:8] == b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1":  # a spreadsheet as of before 2007
        raise InvalidInput("spreadsheet_of_old", field="file")
    return _csv(content)


def _of_zip(content: bytes) -> CellTable:
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            if sum(info.file_size for info in packed.infolist()) > MOST_UNPACKED_BYTES:
                raise InvalidInput("file_takes_too_much", field="file")
            names = set(packed.namelist())
            kind = packed.open("mimetype").read(100) if "mimetype" in names else b""
        if "xl/workbook.xml" in names:
            return _xlsx(content)
        if kind.startswith(OPEN_DOCUMENT):
            return _ods(content)
    except (InvalidInput, MemoryError):
        raise
    except Exception as error:  # whatever a library says of a damaged file
        raise InvalidInput("spreadsheet_damaged", field="file") from error
    raise InvalidInput("not_a_spreadsheet", field="file")


def _xlsx(content: bytes) -> CellTable:
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(content), read_only=True, data_only=True)
    return _first(
        (sheet.title, sheet.iter_rows(max_row=MOST_ROWS + 1, max_col=MOST_COLUMNS,
                                      values_only=True))
        for sheet in book.worksheets)


def _ods(content: bytes) -> CellTable:
    from odfdo import Document, Table

    sheets = []
    for sheet in Document(io.BytesIO(content)).body.get_elements("//table:table"):
        assert isinstance(sheet, Table)
        sheet.rstrip(aggressive=True)
        rows = ([cell.value for cell in islice(row.iter_cells(), MOST_COLUMNS)]
                for row in islice(sheet.iter_rows(), MOST_ROWS + 1))
        sheets.append((str(sheet.name), rows))
    return _first(sheets)


def _first(sheets: Iterable[tuple[str, Iterable[Iterable[object]]]]) -> CellTable:
    """The first sheet with anything in it; the names of those after it."""
    named = list(sheets)
    for at, (name, values) in enumerate(named):
        rows = [tidied([cell_text(value) for value in row]) for row in values]
        if any(rows):
            return table_of(rows, sheet=name, others=tuple(n for n, _rows in named[at + 1 :]))
    raise InvalidInput("spreadsheet_empty", field="file")


def _csv(content: bytes) -> CellTable:
    text, encoding = _decoded(content)
    try:
        csv.field_size_limit(1_000_000)
        found = islice(csv.reader(io.StringIO(text, newline=""), delimiter=_separator(text)),
                       MOST_ROWS + 1)
        rows: list[CellRow] = [tidied(row[:MOST_COLUMNS]) for row in found]
    except csv.Error as error:
        raise InvalidInput("spreadsheet_damaged", field="file") from error
    return table_of(rows, encoding=encoding)


def _decoded(content: bytes) -> tuple[str, str]:
    """The text, and how it was written: UTF-8 where it can be, else as a library finds."""
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return _strict(content, "utf-16")
    if b"\0" in content:
        raise InvalidInput("not_a_spreadsheet", field="file")
    try:
        return content.decode("utf-8-sig"), "utf-8"
    except UnicodeDecodeError:
        pass
    from charset_normalizer import from_bytes

    best = from_bytes(content, cp_isolation=list(WESTERN)).best()
    if best is None:
        raise InvalidInput("spreadsheet_letters", field="file")
    return str(best), best.encoding


def _strict(content: bytes, encoding: str) -> tuple[str, str]:
    try:
        return content.decode(encoding), encoding
    except UnicodeDecodeError as error:
        raise InvalidInput("spreadsheet_letters", field="file") from error


def _separator(text: str) -> str:
    """The mark that parts the first row in most, quotes left out of it."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    outside = "".join(first.split('"')[::2])
    return max(SEPARATORS, key=lambda mark: (outside.count(mark), -SEPARATORS.index(mark)))
