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
from pathlib import Path

from stash.ledger import Event
from stash.model.exact import to_plain
from stash.store.backup.findings import Findings
from stash.store.backup.whole_zip import whole_zip
from stash.store.opening import Stash

FORM = "lengthwise record"
VERSION = 2
CONTENTS = "contents.json"
LEDGER = "ledger.jsonl"
PHOTO = re.compile(r"photos/([2-9A-HJ-KMNP-Z]{6})/([0-9a-f]{20})(-small)?\.jpg")


def back_up(stash: Stash, path: Path) -> Findings:
    """Write everything to ``path``, in the place of what lies there; Unavailable when it cannot."""
    with whole_zip(path) as file:
        return _write(stash, file)


def _write(stash: Stash, file: zipfile.ZipFile) -> Findings:
    return Findings(events=write_ledger(stash, file), photos=write_photos(stash, file))


def write_ledger(stash: Stash, file: zipfile.ZipFile) -> int:
    """Every event, and what they are recognised by; the number of them."""
    digest, count = hashlib.sha256(), 0
    with file.open(LEDGER, "w", force_zip64=True) as ledger:
        for event in stash.ledger.events():
            line = json.dumps(_line(event), ensure_ascii=False).encode() + b"\n"
            digest.update(line)
            ledger.write(line)
            count += 1
    contents = {"form": FORM, "version": VERSION, "events": count, "sha256": digest.hexdigest()}
    file.writestr(CONTENTS, json.dumps(contents, indent=1))
    return count


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
