"""The whole stash in one file, for keeping elsewhere or moving to another computer.

A zip with ``contents.json`` (form, version, number and checksum of the events, number of
photographs), ``ledger.jsonl`` (one event a line, oldest first) and the photographs.
Everything else is worked out again from the ledger, so nothing can disagree with it.
"""

from __future__ import annotations

import hashlib
import json
import re
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from stash.errors import Unavailable
from stash.fact import fact
from stash.ledger import Event
from stash.ledger.chain import broken
from stash.model.exact import to_plain
from stash.store.backup.findings import Findings
from stash.store.backup.whole_zip import whole_zip
from stash.store.opening import Stash

FORM = "lengthwise record"
VERSION = 3
CONTENTS = "contents.json"
LEDGER = "ledger.jsonl"
PHOTO = re.compile(r"photos/(pieces|[2-9A-HJ-KMNP-Z]{6})/([0-9a-f]{20})(-small)?\.jpg")


def back_up(stash: Stash, path: Path) -> Findings:
    """Write everything to ``path``, in the place of what lies there; Unavailable when it cannot.

    Where the chain of events does not hold, the file says so as little as the record does: it
    is written all the same, and the report names the faults.
    """
    with whole_zip(path) as file:
        return _write(stash, file)


def _write(stash: Stash, file: zipfile.ZipFile) -> Findings:
    written = write_ledger(stash, file)
    return replace(written, photos=write_photos(stash, file))


def write_ledger(stash: Stash, file: zipfile.ZipFile) -> Findings:
    """Every event, and what they are recognised by; Unavailable when one cannot be read."""
    digest, count, newest = hashlib.sha256(), 0, stash.ledger.newest()

    def written() -> Iterator[Event]:
        nonlocal count
        for event in stash.ledger.events():
            line = json.dumps(_line(event), ensure_ascii=False).encode() + b"\n"
            digest.update(line)
            ledger.write(line)
            count += 1
            yield event

    try:
        with file.open(LEDGER, "w", force_zip64=True) as ledger:
            breaks = list(broken(written(), newest))
    except (ValueError, TypeError, LookupError) as error:
        raise Unavailable("record_damaged", path=str(stash.folder.database),
                          reason=str(error)[:200]) from error
    contents = {"form": FORM, "version": VERSION, "events": count, "sha256": digest.hexdigest()}
    file.writestr(CONTENTS, json.dumps(contents, indent=1))
    return Findings(events=count, faults=tuple(
        fact(b.how.value, first=b.first, last=b.last) for b in breaks))


def write_photos(stash: Stash, file: zipfile.ZipFile) -> int:
    """Every picture there is; the number of files."""
    photos = sorted(stash.folder.photos.glob("*/*.jpg"))
    for photo in photos:
        name = f"photos/{photo.parent.name}/{photo.name}"
        file.write(photo, name, compress_type=zipfile.ZIP_STORED)
    return len(photos)


def _line(event: Event) -> dict[str, object]:
    line: dict[str, object] = to_plain(event)
    del line["stands"]  # worked out on reading
    return line
