"""Printing a sheet: which labels, on what, with which correction; and remembering it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from labels.choose import as_printed, changed, in_place, labels_for
from labels.content import Label, blank
from labels.local_name import default_address, tidy
from labels.pdf import Printing, sheet_pdf
from stash.errors import InvalidInput
from stash.sentences import Reader
from stash.workroom import labels as codes_of
from stash.workroom import settings
from stash.workroom.opening import Stash


@dataclass(frozen=True, kw_only=True)
class WantedLabels:
    """Which labels are asked for; exactly one of these."""

    codes: tuple[str, ...] = ()
    blanks: int | None = None
    place: str | None = None
    every_place: bool = False
    changed: bool = False


@dataclass(frozen=True, kw_only=True)
class PrintedSheet:
    """The labels that were printed, and the PDF."""

    labels: list[Label]
    pdf: bytes
    address: str


def print_sheet(
    stash: Stash, wanted: WantedLabels, printing: Printing, shift: str | None = None,
    token: str | None = None,
) -> PrintedSheet:
    """The labels as a PDF; blank ones are reserved as they are printed.

    ``shift`` corrects the printer ("0.5,-1": mm right, mm down) and is kept for the next
    sheet; None is as last set. A wrong start is refused before any code is reserved.
    """
    if shift is not None:
        settings.change(stash, {"printer_shift": shift})
    known = settings.preferences(stash)
    printing = replace(
        printing, sheet=printing.sheet.shifted(*known.printer_shift_mm),
        address=tidy(printing.address or known.address or default_address()),
    )
    next(printing.sheet.positions(1, printing.start))
    labels = _labels(stash, wanted, printing.reader, token)
    pdf = sheet_pdf(labels, printing)
    codes_of.printed(stash, {label.code: as_printed(label, printing.reader) for label in labels})
    return PrintedSheet(labels=labels, pdf=pdf, address=printing.address or "")


def _labels(
    stash: Stash, wanted: WantedLabels, reader: Reader, token: str | None
) -> list[Label]:
    if wanted.blanks is not None:
        return [blank(code) for code in codes_of.reserve(stash, wanted.blanks, token)]
    if wanted.place is not None:
        return in_place(stash, wanted.place, reader)
    if wanted.every_place:
        codes = codes_of.every_place(stash)
        if not codes:
            raise InvalidInput("no_place_yet")
        return labels_for(stash, codes, reader)
    if wanted.changed:
        found = changed(stash, reader)
        if not found:
            raise InvalidInput("no_label_changed")
        return found
    return labels_for(stash, wanted.codes, reader)
