"""Everything that once lost data, time or trust, tried again on a whole Lengthwise.

    python tests/bench/attacks.py [NAME ...]

Each attack is run from outside: commands are processes, pages are served and asked over
HTTP. It prints one line an attack and ends with 1 when one of them succeeds.
"""

from __future__ import annotations

import argparse
import io
import json
import os
import resource
import shutil
import signal
import socket
import struct
import subprocess
import sys
import tempfile
import threading
import time
import urllib.parse
import zipfile
import zlib
from collections.abc import Callable
from pathlib import Path

from attack_room import AROUND, COMMAND, ask, refused, run, served, upload
from attacks_on_truth import ON_TRUTH
from drawings_that_swell import LONG_DRAWINGS
from PIL import Image

from stash.demo import fill
from stash.store import open_stash
from stash.store.backup.integrity import check
from web import create_app


def restore_killed(room: Path) -> list[str]:
    """A restore that is killed on the way is whole or nothing, and may be run again."""
    run(room, "record", "backup", str(room / "kept.zip"))
    wrong, whole = [], check(room / "loft").events
    for number in range(12):
        place = room / f"new-{number}"
        bringing = subprocess.Popen(
            [*COMMAND, "--data", str(place), "record", "restore", str(room / "kept.zip")],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            env=AROUND)
        time.sleep(0.4 + 0.25 * number)
        bringing.kill()
        bringing.wait()
        if (place / "stash.db").exists():
            found = check(place)
            if found.faults or found.events not in (0, whole):
                wrong.append(f"killed after {0.4 + 0.25 * number:.2f} s: {found.faults[:2]}")
        again = run(place.parent, "--data", str(place), "record", "restore", "--replace",
                    str(room / "kept.zip"))
        if again.returncode or check(place).events != whole:
            wrong.append(f"not brought back the second time: {again.stderr[-200:]!r}")
    return wrong


def restore_on_small_disk(room: Path) -> list[str]:
    """A disk that ends on the way (a limit on files stands in for it) loses nothing."""
    run(room, "record", "backup", str(room / "kept.zip"))
    wrong = []
    for most in (20_000, 100_000, 300_000):
        place = room / f"small-{most}"
        done = subprocess.run(
            [*COMMAND, "--data", str(place), "record", "restore", str(room / "kept.zip")],
            capture_output=True, env=AROUND, check=False,
            preexec_fn=lambda most=most: (
                signal.signal(signal.SIGXFSZ, signal.SIG_IGN),
                resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))))
        if done.returncode == 0 and check(place).ok:
            continue  # it had room enough
        wrong += refused(done)
        if b"not a whole file" in done.stderr or b"damaged" in done.stderr:
            wrong.append("the sound backup is blamed")
        if list(place.glob("photos/*/*")):
            wrong.append("photographs without their record")
        again = run(room, "--data", str(place), "record", "restore", str(room / "kept.zip"))
        if again.returncode or not check(place).ok:
            wrong.append(f"not brought back afterwards: {again.stderr[-200:]!r}")
    return wrong


def output_over_the_record(room: Path) -> list[str]:
    """No output writes over the record, by any name of it, or over a file that is there."""
    record = room / "loft" / "stash.db"
    (room / "link").symlink_to(room / "loft")
    (room / "there.svg").write_text("hers")
    digest, wrong = zlib.crc32(record.read_bytes()), []
    for target in (record, room / "loft" / "photos" / "x", room / "link" / "stash.db",
                   room / "loft" / ".." / "loft" / "stash.db", room / "there.svg"):
        for words in (("record", "backup", "FILE"), ("record", "table", "FILE"),
                      ("record", "export", "FILE"), ("labels", "--blank", "1", "--out", "FILE"),
                      ("draft", "tote-bag", "--svg", "FILE"),
                      ("calibration", "--sheet", "--out", "FILE"),
                      ("shop", "tote-bag", "--seconds", "0.5", "--card", "FILE")):
            done = run(room, *(str(target) if word == "FILE" else word for word in words))
            wrong += [f"{words[:2]} to {target.name}: {fault}" for fault in refused(done)]
    if zlib.crc32(record.read_bytes()) != digest or (room / "there.svg").read_text() != "hers":
        wrong.append("something was written over")
    return wrong


def drawings_that_swell(room: Path) -> list[str]:
    """Eight uploads at once of each drawing that once took every thread; the pages go on."""
    wrong = []
    with served(room) as port:
        for name, content in LONG_DRAWINGS.items():
            statuses: list[int] = []
            began = time.monotonic()

            def send(name=name, content=content, statuses=statuses) -> None:
                statuses.append(upload(port, "/patterns/import", name, content)[0])

            threads = [threading.Thread(target=send) for _ in range(8)]
            for thread in threads:
                thread.start()
            asked = time.monotonic()
            status = ask(port, "/settings/")[0]
            if status != 200 or time.monotonic() - asked > 30:
                wrong.append(f"{name}: another page took {time.monotonic() - asked:.0f} s")
            for thread in threads:
                thread.join()
            if any(s not in (422, 503) for s in statuses) or time.monotonic() - began > 120:
                wrong.append(f"{name}: {statuses} in {time.monotonic() - began:.0f} s")
    return wrong


def pictures_that_swell(room: Path) -> list[str]:
    """Five PNGs at once that say they are 10,000 x 10,000: refused, and no memory is taken."""
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(
            ">I", zlib.crc32(kind + data))

    rows = zlib.compress(bytes((1 + 40_000) * 10_000), 9)
    trap = (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(
        ">IIBBBBB", 10_000, 10_000, 8, 6, 0, 0, 0)) + chunk(b"IDAT", rows) + chunk(b"IEND", b""))
    with open_stash(room / "loft") as stash:
        code = stash.cuts.all()[0].code
        kept = len(stash.photos.of(code))
    statuses: list[int] = []
    with served(room) as port:
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        threads = [threading.Thread(target=lambda: statuses.append(
            upload(port, f"/photos/{code}", "trap.png", trap)[0])) for _ in range(5)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        taken = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1000
    with open_stash(room / "loft") as stash:
        grown = len(stash.photos.of(code)) - kept
    wrong = [f"statuses {statuses}"] if any(s not in (422, 503) for s in statuses) else []
    return wrong + [f"{taken:.0f} MB"] * (taken > 500) + ["one was kept"] * bool(grown)


def zips_that_swell(room: Path) -> list[str]:
    """1.5 MB that would become 1.5 GB, as one part, as many, and as a spreadsheet."""
    run(room, "record", "backup", str(room / "kept.zip"))
    wrong = []
    with zipfile.ZipFile(room / "kept.zip") as sound:
        parts = {name: sound.read(name) for name in ("contents.json", "ledger.jsonl")}
    large = {"ledger.jsonl": b" " * 1_500_000_000}
    small = {f"photos/K7MN4P/{n:020x}.jpg": b" " * 4_900_000 for n in range(300)}
    for name, more in (("one.zip", large), ("many.zip", small)):
        with zipfile.ZipFile(room / name, "w", zipfile.ZIP_DEFLATED) as trap:
            for part, content in (parts | more).items():
                trap.writestr(part, content)
        for words in (("record", "verify", str(room / name)),
                      ("record", "restore", "--replace", str(room / name))):
            began = time.monotonic()
            wrong += [f"{name}: {fault}" for fault in refused(run(room, *words))]
            if time.monotonic() - began > 40:
                wrong.append(f"{name}: {time.monotonic() - began:.0f} s")
    with zipfile.ZipFile(room / "trap.xlsx", "w", zipfile.ZIP_DEFLATED) as trap:
        trap.writestr("xl/workbook.xml", b" " * 1_500_000_000)
    wrong += refused(run(room, "record", "import", str(room / "trap.xlsx")))
    return wrong + ([] if check(room / "loft").ok else ["the record is not sound"])


def forged_posts(room: Path) -> list[str]:
    """Every form of every page, sent by a page from elsewhere or under a foreign name."""
    app = create_app(room / "loft")
    rules = [rule for rule in app.url_map.iter_rules() if "POST" in (rule.methods or ())]
    before, wrong = check(room / "loft").events, []
    with served(room) as port:
        for rule in rules:
            path = urllib.parse.quote(
                "".join(c for c in rule.rule.replace("<", "").replace(">", "") if c != ":"))
            for headers in ({"Origin": "https://elsewhere.example"},
                            {"Sec_Fetch_Site": "cross-site"}, {"Origin": "null"},
                            {"Host": "elsewhere.example"}):
                status, _ = ask(port, path, "name=x&place=x&length=1m", **headers)
                if status not in (400, 403):
                    wrong.append(f"{rule.rule} {headers}: {status}")
    return wrong + ["recorded"] * (check(room / "loft").events != before)


def interrupts(room: Path) -> list[str]:
    """Ctrl-C ends a long search within a second (of a machine that has time for it)."""
    wrong = []
    for words in (("need", "trousers", "--width", "140cm", "--body", "women", "--measure",
                   "hip=104cm", "--measure", "waist=82cm", "--seconds", "60"),
                  ("fit", "robe", "--for", "Odile Farrant", "--seconds", "60"),
                  ("plan", "choose", "trousers", "robe", "shirt", "--for", "Odile Farrant",
                   "--seconds", "60")):
        going = subprocess.Popen(
            [*COMMAND, "--data", str(room / "loft"), *words], stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE, env=AROUND,
            start_new_session=True)
        time.sleep(6)
        if going.poll() is not None:
            said = going.communicate()[1]
            wrong += [f"{words[0]}: {said[-100:]!r}"] * (going.returncode != 0)
            continue  # it had its answer sooner
        began = time.monotonic()
        os.killpg(going.pid, signal.SIGINT)
        _, said = going.communicate(timeout=60)
        took = time.monotonic() - began
        if took > 3 or going.returncode != 130 or b"Traceback" in said:
            wrong.append(f"{words[0]}: {took:.1f} s, status {going.returncode}, {said[-100:]!r}")
    return wrong


def silent_connections(room: Path) -> list[str]:
    """130 clients that connect and say nothing, or half a header, shut nobody out."""
    with served(room) as port:
        held = []
        for number in range(130):
            line = socket.create_connection(("127.0.0.1", port))
            line.sendall(b"" if number % 2 else b"POST /cuts/new HTTP/1.1\r\nHost: 127.0")
            held.append(line)
        began = time.monotonic()
        status, _ = ask(port, "/settings/")
        took = time.monotonic() - began
        for line in held:
            line.close()
    return [f"{status} after {took:.1f} s"] if status != 200 or took > 10 else []


def numbers_that_are_none(room: Path) -> list[str]:
    """Not a number, no end of one, four hundred nines: a sentence each, nothing recorded."""
    before, wrong = check(room / "loft").events, []
    for words in (("need", "tote-bag", "--width", "140cm", "--seconds", "nan"),
                  ("fit", "tote-bag", "--seconds", "inf"), ("shop", "tote-bag", "--price", "nan"),
                  ("cut", "add", "Dune", f"{'9' * 400}m x 1m"), ("undo", "9223372036854775808"),
                  ("person", "add", "..", "--measure", "hip=1m"), ("record", "backup", ""),
                  ("cut", "add", "x" * 5000, "1m x 1m"), ("pattern", "show", b"\xff\xfe".decode(
                      "utf-8", "surrogateescape"))):
        wrong += [f"{words[0]}: {fault}" for fault in refused(run(room, *words))]
    return wrong + ["recorded"] * (check(room / "loft").events != before)


def photographs_at_once(room: Path) -> list[str]:
    """Six equal photographs at the same moment are one, and none is an error."""
    out = io.BytesIO()
    Image.effect_noise((900, 700), 60).save(out, "JPEG")
    with open_stash(room / "loft") as stash:
        code = stash.cuts.all()[0].code
        kept = len(stash.photos.of(code))
    statuses: list[int] = []
    with served(room) as port:
        threads = [threading.Thread(target=lambda: statuses.append(
            upload(port, f"/photos/{code}", "a.jpg", out.getvalue())[0])) for _ in range(6)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    with open_stash(room / "loft") as stash:
        grown = len(stash.photos.of(code)) - kept
    return [f"{statuses}, {grown} kept"] if grown != 1 or max(statuses) >= 500 else []


ATTACKS: tuple[Callable[[Path], list[str]], ...] = (
    restore_killed, restore_on_small_disk, output_over_the_record, drawings_that_swell,
    pictures_that_swell, zips_that_swell, forged_posts, interrupts, silent_connections,
    numbers_that_are_none, photographs_at_once, *ON_TRUTH,
)


def main() -> None:
    """One line an attack; exit with 1 when one succeeds."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("names", nargs="*", metavar="NAME", help=", ".join(
        attack.__name__ for attack in ATTACKS))
    names, told = asked.parse_args().names, {}
    for attack in ATTACKS:
        if names and attack.__name__ not in names:
            continue
        room = Path(tempfile.mkdtemp())
        try:
            with open_stash(room / "loft") as stash:
                fill(stash)
            began = time.monotonic()
            told[attack.__name__] = attack(room)
            found = told[attack.__name__]
            print(f"{attack.__name__:<35}{'nothing' if not found else 'FOUND':<10}"
                  f"{time.monotonic() - began:>6.0f} s", flush=True)
            for one in found:
                print(f"    {one}", flush=True)
        finally:
            shutil.rmtree(room, ignore_errors=True)
    print(json.dumps({name: len(found) for name, found in told.items()}))
    sys.exit(any(told.values()))


if __name__ == "__main__":
    main()
