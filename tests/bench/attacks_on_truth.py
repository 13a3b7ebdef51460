"""Attacks on what is said and on who may ask: each once had Lengthwise say what is not so."""

from __future__ import annotations

import io
import logging
import os
import re
import shutil
import sqlite3
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path

from attack_room import ask, refused, run, served, upload
from PIL import Image

from stash.model import Person
from stash.store import open_stash
from stash.store.backup.integrity import check
from web import create_app
from web.devices.door import OPEN_TO_ALL

COMPILING_S = 400.0
"""The first lay on a machine may wait for machine code."""
FAR = {"REMOTE_ADDR": "192.168.77.5"}
HARMS = {
    "an event altered": "UPDATE event SET change = replace(change, '00', '01') WHERE id = "
                        "(SELECT min(id) FROM event WHERE change LIKE '%00%')",
    "an event gone": "DELETE FROM event WHERE id = 5",
    "the last events gone": "DELETE FROM event WHERE id > 100",
    "what was touched gone": "DELETE FROM touched",
    "a length altered": "UPDATE cut SET length_mm = 1, outline = replace(outline, '1', '2')",
}
FACTS = ("facts=1&name=Sailcloth&construction=woven&keep_for=the tent&notes=dry"
         "&token=facts-of-one-act")


def losses_unseen(room: Path) -> list[str]:
    """Events, tables or photographs lost or altered: found, named, and put right in one step."""
    with open_stash(room / "loft") as stash:
        code = stash.cuts.all()[0].code
        stash.photos.add(code, _picture())
        stash.settle()
    wrong = []
    for name, sql in HARMS.items():
        place = _copied(room, name)
        db = sqlite3.connect(place / "stash.db")
        db.execute("PRAGMA foreign_keys = OFF")
        db.execute(sql)
        db.commit()
        db.close()
        wrong += _found_and_mended(place, name)
    place = _copied(room, "photographs gone")
    shutil.rmtree(place / "photos")
    return wrong + _found_and_mended(place, "photographs gone")


def _copied(room: Path, name: str) -> Path:
    """The loft under another name, with a copy of today."""
    place = room / name.replace(" ", "-")
    shutil.copytree(room / "loft", place)
    shutil.rmtree(place / "copies", ignore_errors=True)  # one was made when the day began
    open_stash(place).close()
    return place


def _found_and_mended(place: Path, name: str) -> list[str]:
    told = run(place.parent, "--data", str(place), "record", "check")
    wrong = [] if told.returncode == 1 else [f"{name}: not found by a check"]
    run(place.parent, "--data", str(place), "record", "repair")
    return wrong + [f"{name}: not put right"] * (not check(place).ok)


def a_lost_record_taken_for_a_new_one(room: Path) -> list[str]:
    """No stash.db, or an empty one, beside photographs and copies: said to be lost."""
    open_stash(room / "loft").close()
    wrong = []
    for name, harm in (("missing", Path.unlink), ("empty", lambda path: path.write_bytes(b""))):
        place = room / name
        shutil.copytree(room / "loft", place)
        harm(place / "stash.db")
        for end in ("-wal", "-shm"):
            (place / f"stash.db{end}").unlink(missing_ok=True)
        wrong += [f"{name}: {w}" for w in refused(run(room, "--data", str(place), "cut", "list"))]
        run(room, "--data", str(place), "record", "repair")
        wrong += [f"{name}: not brought back"] * (not check(place).events)
    return wrong


def one_act_taken_back_by_halves(room: Path) -> list[str]:
    """A second lay held, and facts changed together: one entry each, and one undo."""
    with open_stash(room / "loft") as stash:
        code = stash.cuts.all()[0].code
    for words in (("plan", "add", "Twice", "--garment", "tote-bag"),
                  ("plan", "hold", "Twice", "--seconds", "1")):
        run(room, *words, seconds=COMPILING_S)
    with open_stash(room / "loft") as stash:
        held = next(iter(stash.plans.holdings("Twice").cuts), "")
        others = [cut.code for cut in stash.cuts.all() if cut.code != held]
    wrong = ["nothing was held"] * (not held)
    for other in others:
        before = _state(room)
        words = ("plan", "hold", "Twice", "--cut", other, "--seconds", "1")
        if run(room, *words, seconds=COMPILING_S).returncode == 0:
            wrong += _one_entry(room, before, "a second lay")
            break
    before = _state(room)
    with served(room) as port:
        ask(port, f"/cuts/{code}/facts", FACTS.replace(" ", "+"))
    return wrong + _one_entry(room, before, "facts together")


def _state(room: Path) -> tuple[int, dict]:
    with open_stash(room / "loft") as stash:
        return stash.ledger.newest(), stash.ledger.cached()


def _one_entry(room: Path, before: tuple[int, dict], what: str) -> list[str]:
    number, _ = _state(room)
    wrong = [f"{what}: {number - before[0]} entries"] * (number - before[0] != 1)
    run(room, "undo", str(number))
    return wrong + [f"{what}: half taken back"] * (_state(room)[1] != before[1])


def said_to_be_recorded(room: Path) -> list[str]:
    """A token used again with other content, a person over another, a failure after a write."""
    app = create_app(room / "loft")

    @app.post("/fails")
    def fails() -> None:
        from web.request_stash import stash

        stash().people.save(Person(name="Written before the failure"))
        raise RuntimeError("a bug")

    logging.getLogger("web").setLevel(logging.CRITICAL + 1)
    client, wrong = app.test_client(), []
    with open_stash(room / "loft") as stash:
        code = next(cut.code for cut in stash.cuts.all() if cut.length_mm > 500)
        length = stash.cuts.get(code).length_mm
        hip = stash.people.get("Odile Farrant").measurements_mm["hip"]
    for quick in ("10 cm", "20 cm"):
        status = client.post(f"/cuts/{code}/cut-off", data={
            "quick": quick, "token": "token-of-one-form"}).status_code
    over = client.post("/people/new", data={
        "name": "odile  FARRANT", "hip": "140 cm", "waist": "120 cm"}).status_code
    failed = client.post("/fails")
    with open_stash(room / "loft") as stash:
        newest = stash.ledger.newest()
        if status != 409 or stash.cuts.get(code).length_mm != length - 100:
            wrong.append(f"the same token with other content: {status}")
        if over != 409 or stash.people.get("Odile Farrant").measurements_mm["hip"] != hip:
            wrong.append(f"a person over another: {over}")
    if failed.status_code != 500 or not re.search(rf"number {newest}\b", failed.text):
        wrong.append(f"a failure after a write: {failed.status_code}")
    return wrong


def strangers(room: Path) -> list[str]:
    """Every page, asked and sent from elsewhere on the network without a key."""
    app = create_app(room / "loft")
    app.extensions["requests"].most = 1e9
    client, wrong, before = app.test_client(), [], check(room / "loft").events
    with open_stash(room / "loft") as stash:
        code = stash.cuts.all()[0].code
    for rule in app.url_map.iter_rules():
        path = re.sub(r"<[^>]*>", code, rule.rule)
        for method in sorted({"GET", "POST"} & (rule.methods or set())):
            answer = client.open(path, method=method, environ_base=FAR,
                                 base_url="http://192.168.77.2:5000")
            if answer.status_code < 400 and rule.endpoint not in OPEN_TO_ALL:
                wrong.append(f"{method} {rule.rule}: {answer.status_code}")
            answer.close()
    return wrong + ["recorded"] * (check(room / "loft").events != before)


def left_open_to_others(room: Path) -> list[str]:
    """After a day's work nothing in the data folder can be read by another account."""
    with open_stash(room / "loft") as stash:
        code = stash.cuts.all()[0].code
    with served(room) as port:
        upload(port, f"/photos/{code}", "a.png", _picture())
    run(room, "record", "backup", str(room / "kept.zip"))
    open_to = [path for path in (room / "loft", *(room / "loft").rglob("*"), room / "kept.zip")
               if stat.S_IMODE(path.stat().st_mode) & 0o077]
    return [f"{path.name}: {stat.S_IMODE(path.stat().st_mode):o}" for path in open_to]


def photographs_of_no_date(room: Path) -> list[str]:
    """A photograph whose file is dated 1970 is in the backup, and comes back."""
    with open_stash(room / "loft") as stash:
        stash.photos.add(stash.cuts.all()[0].code, _picture())
    for path in (room / "loft" / "photos").rglob("*.jpg"):
        os.utime(path, (0, 0))
    done = run(room, "record", "backup", str(room / "kept.zip"))
    if done.returncode:
        return [done.stderr.decode()[-150:]]
    with zipfile.ZipFile(room / "kept.zip") as file:
        kept = [name for name in file.namelist() if name.endswith(".jpg")]
    there = list((room / "loft" / "photos").rglob("*.jpg"))
    return [f"{len(kept)} of {len(there)}"] if len(kept) != len(there) else []


def _picture() -> bytes:
    out = io.BytesIO()
    Image.effect_noise((300, 200), 60).save(out, "JPEG")
    return out.getvalue()


ON_TRUTH: tuple[Callable[[Path], list[str]], ...] = (
    losses_unseen, a_lost_record_taken_for_a_new_one, one_act_taken_back_by_halves,
    said_to_be_recorded, strangers, left_open_to_others, photographs_of_no_date,
)
