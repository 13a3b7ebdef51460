"""What Windows and old terminals do otherwise, played on this system.

There a file that anybody holds open can be neither moved nor deleted nor written over
(documentation of CreateFile: without FILE_SHARE_DELETE, which neither C's ``open`` nor SQLite
asks for), there are no links between files on many disks, and what a command prints may go
out in a code page that has no place for most letters.
"""

from __future__ import annotations

import io
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from stash.model import Cloth, Cut, Outline, Person
from stash.store import open_stash
from stash.store.backup import second_place
from stash.store.backup.backup_file import back_up
from stash.store.backup.daily import keep_copy
from stash.store.backup.export import export
from stash.store.backup.integrity import check
from stash.store.backup.repair import repair
from stash.store.backup.restore import restore

OPEN_FILES = Path("/proc/self/fd")
NAME = "Łódź 😀 → ½ “Crêpe”"


def held_open(path: str | os.PathLike) -> bool:
    """Whether this process has the file open."""
    wanted = os.path.realpath(path)
    for number in OPEN_FILES.iterdir():
        try:
            if str(number.readlink()) == wanted:
                return True
        except OSError:
            continue
    return False


@pytest.fixture
def like_windows(monkeypatch):
    """Files that are open stay where they are, nothing is linked, folders are not opened."""
    def guarded(usual, ends):
        def act(*paths, **more):
            for path in paths[:ends]:
                if isinstance(path, (str, os.PathLike)) and held_open(path):
                    raise PermissionError(13, "The process cannot access the file because it is "
                                              "being used by another process", str(path))
            return usual(*paths, **more)
        return act

    def no_links(*_paths, **_more):
        raise OSError(1, "Incorrect function")

    def opened(path, flags, *mode, **more):
        if Path(path).is_dir():
            raise PermissionError(13, "Permission denied", str(path))
        return usual_open(path, flags, *mode, **more)

    usual_open = os.open
    for name, ends in (("replace", 2), ("rename", 2), ("unlink", 1), ("remove", 1)):
        monkeypatch.setattr(os, name, guarded(getattr(os, name), ends))
    monkeypatch.setattr(os, "link", no_links)
    monkeypatch.setattr(os, "open", opened)
    monkeypatch.setattr(shutil, "_use_fd_functions", False)  # as where folders cannot be opened


needs_the_account_of_open_files = pytest.mark.skipif(
    not OPEN_FILES.is_dir(), reason="only Linux tells which files a process has open")


@needs_the_account_of_open_files
def test_an_open_file_stays_where_it_is(tmp_path, like_windows):
    """So that the tests below would see one."""
    (tmp_path / "a").write_bytes(b"1")
    with (tmp_path / "a").open("rb"), pytest.raises(PermissionError):
        (tmp_path / "a").replace(tmp_path / "b")
    with (tmp_path / "a").open("rb"), pytest.raises(PermissionError):
        (tmp_path / "a").unlink()
    (tmp_path / "a").unlink()


@pytest.fixture
def loft(tmp_path):
    """A record with a cut, a person and a photograph, and the copy of the day."""
    place = tmp_path / "loft"
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "teal").save(out, "PNG")
    with open_stash(place) as stash:
        code = stash.cuts.receive(Cut(
            code="", cloth=Cloth(name=NAME), place=NAME,
            outline=Outline.rectangle(3000, 1400))).code
        stash.people.save(Person(name="Odile Farrant", measurements_mm={"hip": 980}))
        stash.photos.add(code, out.getvalue())
    return place


@needs_the_account_of_open_files
def test_copies_backups_and_the_way_back_hold_no_file_open(loft, tmp_path, like_windows):
    """A day's copy, a second place, a backup, an export, a restore over a record, a repair."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    with open_stash(loft) as stash:
        keep_copy(stash.ledger.db, stash.folder, stash.ledger.hand.clock().date())
        second_place.name_place(stash, elsewhere)
        second_place.renew(stash)
        for _ in range(2):  # the second takes the place of the first
            back_up(stash, tmp_path / "kept.zip")
            export(stash, tmp_path / "out.zip", photos=True, measurements=True)
    assert len(list(elsewhere.rglob("*.jpg"))) == 2

    for file in ("kept.zip", "out.zip", next((loft / "copies").glob("day-*.db"))):
        assert restore(tmp_path / file, loft, replace=True).faults == ()
        assert check(loft).ok

    (loft / "stash.db").write_bytes(b"SQLite format 3\0" * 99)
    assert repair(loft).after.ok
    assert not list(loft.rglob("*.part")) and not (loft / "restoring").exists()


@needs_the_account_of_open_files
def test_a_lost_record_is_put_right_from_its_page(web_client, web_stash, web_data, like_windows):
    """The page itself must not hold what it puts right."""
    web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400)))
    keep_copy(web_stash.ledger.db, web_stash.folder, web_stash.ledger.hand.clock().date())
    web_stash.close()
    for end in ("-wal", "-shm"):
        (web_data / f"stash.db{end}").unlink(missing_ok=True)
    (web_data / "stash.db").write_bytes(b"SQLite format 3\0" * 99)

    assert web_client.get("/").status_code == 503
    assert web_client.get("/record/").status_code == 503
    assert web_client.post("/record/mend").status_code == 303
    assert "Dune" in web_client.get("/").text


@needs_the_account_of_open_files
def test_photographs_and_backups_from_the_page_leave_nothing_behind(
    web_client, web_stash, web_data, like_windows, monkeypatch, tmp_path
):
    """A picture kept twice and shown, and the whole record downloaded."""
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code
    out = io.BytesIO()
    Image.new("RGB", (40, 30), "teal").save(out, "PNG")
    for _ in range(2):
        sent = web_client.post(
            f"/photos/{code}", data={"photo": (io.BytesIO(out.getvalue()), "a.png")})
        assert sent.status_code == 303
    with web_client.get("/record/backup.zip") as answer:
        assert answer.data[:2] == b"PK"

    assert not list(tmp_path.rglob("*.part")) and not list(tmp_path.rglob("*.zip"))


def printed(loft, *words, encoding, **around):
    """(what a command writes as bytes, its status) where the output has an encoding."""
    done = subprocess.run(
        [sys.executable, "-c", "from web.command import main; main()", "--data", str(loft), *words],
        capture_output=True, check=False, env={
            **os.environ, "PYTHONPATH": os.pathsep.join(filter(None, sys.path)),
            "PYTHONIOENCODING": encoding, **around})
    assert b"Traceback" not in done.stderr, done.stderr
    return done.stdout, done.returncode


@pytest.mark.parametrize("encoding", ["cp1252", "cp437"])
@pytest.mark.parametrize("words", [("cut", "list"), ("find", "Crêpe")])
def test_a_letter_that_the_output_has_no_place_for_stops_no_command(loft, words, encoding):
    """Code pages 1252 and 437, as Windows writes into files and pipes; and JSON stays JSON."""
    text, status = printed(loft, *words, encoding=encoding)
    packed, _ = printed(loft, *words, "--json", encoding=encoding)

    assert status == 0
    assert text
    assert NAME in json.dumps(json.loads(packed), ensure_ascii=False)


def test_a_terminal_without_any_language_is_answered(loft):
    """The locale C without Python's own way out of it (PEP 538 and 540)."""
    text, status = printed(
        loft, "cut", "list", encoding="", LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0")

    assert status == 0
    assert text
