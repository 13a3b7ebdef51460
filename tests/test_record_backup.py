"""The whole record goes into one file and comes back from it, whole or not at all."""

from __future__ import annotations

import io
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import zipfile
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from stash.errors import Conflict, InvalidInput, StashError, StoreTooNew, Unavailable
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline, Person, Plan
from stash.store import open_stash
from stash.store.backup import restore as restoring
from stash.store.backup.backup_file import back_up
from stash.store.backup.export import export
from stash.store.backup.integrity import check
from stash.store.backup.restore import restore
from stash.store.backup.verify import verify

GOLDEN = Path(__file__).parent / "golden"


def picture(colour="teal", size=(30, 20)):
    """A PNG of one colour."""
    out = io.BytesIO()
    Image.new("RGB", size, colour).save(out, "PNG")
    return out.getvalue()


@pytest.fixture
def stash(tmp_path):
    """A stash in which a little of everything has happened."""
    with open_stash(tmp_path / "loft", who="Sunniva Tarn") as stash:
        cut = Cut(code="", cloth=Cloth(name="Crêpe"), outline=Outline.rectangle(2000, 1400))
        code = stash.cuts.receive(cut, token="t").code
        stash.cuts.cut_off(code, 1 / 3)
        stash.ledger.undo(stash.cuts.cut_off(code, 700.0).id)
        stash.cuts.cut_out(code, Outline(((0, 0), (900, 0), (0, 1400))), plan=None)
        notion = Notion(kind=NotionKind.THREAD, name="Sewing thread")
        stash.bins.receive(Bin(code="", notion=notion, amount=100_000.0))
        stash.people.save(Person(name="Pip Okell", measurements_mm={"chest": 600.5}))
        stash.plans.save(Plan(name="Winter"))
        stash.places.receive("Loft shelf")
        stash.labels.reserve(3)
        stash.settings.set_address("http://loft.local")
        stash.photos.add(code, picture())
        with stash.act():
            stash.cuts.move(code, "Loft shelf")
            stash.plans.save(Plan(name="Spring"))
        yield stash


@pytest.fixture
def file(stash, tmp_path):
    """The record in one file."""
    path = tmp_path / "loft.zip"
    back_up(stash, path)
    return path


def files_of(path):
    """The files of a zip."""
    with zipfile.ZipFile(path) as old:
        return {name: old.read(name) for name in old.namelist()}


def written(path, files):
    """A zip of these files."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files.items():
            packed.writestr(name, content)
    return path


def nothing_in(place):
    """That no record and no photograph lies there."""
    return not (place / "stash.db").exists() and not list(place.rglob("*.jpg"))


def test_what_comes_back_is_what_went_in(stash, file, tmp_path):
    """Every event with its hand, token and checksum, every state, every photograph."""
    report = restore(file, tmp_path / "new")

    assert report.ok
    assert (report.events, report.photos) == (len(list(stash.ledger.events())), 2)
    with open_stash(tmp_path / "new") as new:
        assert list(new.ledger.events()) == list(stash.ledger.events())
        assert new.ledger.cached() == stash.ledger.cached()
        code = stash.cuts.all()[0].code
        photo = stash.photos.of(code)[0]
        same = stash.photos.file(code, photo.id).read_bytes()
        assert new.photos.file(code, photo.id).read_bytes() == same
        assert new.search("crepe") == stash.search("crepe")
    assert check(tmp_path / "new").ok


@pytest.mark.parametrize("year", [1970, 2150])
@pytest.mark.parametrize("write", [back_up, partial(export, photos=True, measurements=True)])
def test_a_photograph_of_an_impossible_date_is_in_the_backup(stash, tmp_path, year, write):
    """A zip dates what it holds from 1980 to 2107 (APPNOTE.TXT 4.4.6); files may claim more."""
    moment = datetime(year, 1, 1, 12, tzinfo=UTC).timestamp()
    for photo in stash.folder.photos.rglob("*.jpg"):
        os.utime(photo, (moment, moment))
    write(stash, tmp_path / "out.zip")

    found = restore(tmp_path / "out.zip", tmp_path / "new")

    assert (found.photos, found.faults) == (2, ())


def test_life_goes_on_after_coming_back(file, tmp_path):
    """New events get new numbers, and old tokens are still known."""
    restore(file, tmp_path / "new")
    with open_stash(tmp_path / "new") as new:
        code = new.cuts.all()[0].code
        newest = max(event.id for event in new.ledger.events())
        assert new.cuts.cut_off(code, 10.0).id == newest + 1


def test_a_backup_of_the_version_before_comes_back(tmp_path):
    """Source: tests/golden/backup-0.1.0.zip, written by that version."""
    assert verify(GOLDEN / "backup-0.1.0.zip").ok
    report = restore(GOLDEN / "backup-0.1.0.zip", tmp_path / "new")

    assert (report.ok, report.events, report.photos) == (True, 29, 4)
    assert check(tmp_path / "new").ok


def test_a_record_that_is_there_is_not_lost(stash, file, tmp_path):
    """Two histories cannot be mixed; only when told to, the present one is put aside."""
    place = tmp_path / "other"
    with open_stash(place) as other:
        other.people.save(Person(name="Bram Okell"))
    with pytest.raises(Conflict, match="record_here"):
        restore(file, place)
    with open_stash(place) as other:
        assert [p.name for p in other.people.all()] == ["Bram Okell"]

    restore(file, place, replace=True)

    with open_stash(place) as other:
        assert [p.name for p in other.people.all()] == ["Pip Okell"]
    [aside] = (place / "copies").glob("replaced-*")
    shutil.copytree(aside, tmp_path / "aside")
    with open_stash(tmp_path / "aside") as other:
        assert [p.name for p in other.people.all()] == ["Bram Okell"]


@pytest.mark.parametrize("spoil", [
    "line lost", "line altered", "no contents", "another form", "event altered with its digest"])
def test_a_spoilt_file_is_refused_and_nothing_is_taken_from_it(file, tmp_path, spoil):
    """The number, the digest and the chain of the events tell; verify tells it too."""
    files = files_of(file)
    if spoil == "line lost":
        files["ledger.jsonl"] = b"".join(files["ledger.jsonl"].splitlines(keepends=True)[:-1])
    elif spoil == "line altered":
        files["ledger.jsonl"] = files["ledger.jsonl"].replace(b"2000", b"3000")
    elif spoil == "no contents":
        del files["contents.json"]
    elif spoil == "another form":
        files["contents.json"] = b'{"form": "a recipe", "version": 1}'
    else:
        import hashlib

        files["ledger.jsonl"] = files["ledger.jsonl"].replace(b"2000", b"3000")
        contents = json.loads(files["contents.json"])
        contents["sha256"] = hashlib.sha256(files["ledger.jsonl"]).hexdigest()
        files["contents.json"] = json.dumps(contents).encode()
    path = written(tmp_path / "spoilt.zip", files)

    with pytest.raises(InvalidInput, match="backup_damaged|backup_unsound"):
        restore(path, tmp_path / "new")
    assert nothing_in(tmp_path / "new")
    try:
        assert not verify(path).ok
    except InvalidInput as refused:
        assert refused.fact.kind == "backup_damaged"


def test_a_file_of_a_newer_version_is_refused(file, tmp_path):
    """It may hold what this version would lose."""
    files = files_of(file)
    files["contents.json"] = json.dumps(
        json.loads(files["contents.json"]) | {"version": 99}).encode()
    with pytest.raises(StoreTooNew):
        restore(written(tmp_path / "newer.zip", files), tmp_path / "new")


def test_a_name_that_leads_out_of_the_folder_is_not_followed(file, tmp_path):
    """Only photographs under label codes are unpacked."""
    files = files_of(file)
    files["photos/../../escaped.jpg"] = b"x"
    restore(written(tmp_path / "sly.zip", files), tmp_path / "new")
    assert not list(tmp_path.rglob("escaped*"))


@pytest.mark.parametrize("name", ["ledger.jsonl", "photos/K7MN4P/0123456789abcdef0123.jpg"])
def test_a_small_file_does_not_unpack_into_a_large_one(file, tmp_path, name):
    """A trap of 1.5 MB that would become 1.5 GB is refused before it is unpacked."""
    path = written(tmp_path / "trap.zip", files_of(file) | {name: b" " * 200_000_000})

    for attempt in (lambda: verify(path), lambda: restore(path, tmp_path / "new")):
        with pytest.raises(InvalidInput, match="unpacks_too_large"):
            attempt()
    assert nothing_in(tmp_path / "new")


def test_many_small_parts_do_not_unpack_into_a_large_whole(file, tmp_path):
    """Three hundred parts of 5 kB that would each become 5 MB: 1.5 MB against 1.5 GB."""
    path = tmp_path / "trap.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files_of(file).items():
            packed.writestr(name, content)
        for number in range(300):
            packed.writestr(f"photos/K7MN4P/{number:020x}.jpg", b" " * 4_900_000)
    assert path.stat().st_size < 2_000_000

    for attempt in (lambda: verify(path), lambda: restore(path, tmp_path / "new")):
        with pytest.raises(InvalidInput, match="unpacks_too_large"):
            attempt()
    assert nothing_in(tmp_path / "new")


def test_a_damaged_photograph_does_not_keep_the_ledger_back_and_is_named(file, tmp_path):
    """It is found by verifying, without bringing anything back."""
    content = bytearray(file.read_bytes())
    at = content.index(b"\xff\xd8\xff")
    content[at + 20 : at + 40] = bytes(20)
    file.write_bytes(content)

    assert [f.kind for f in verify(file).faults] == ["photo_damaged"]
    report = restore(file, tmp_path / "new")
    assert (report.photos, [f.kind for f in report.faults][0]) == (1, "photo_damaged")
    with open_stash(tmp_path / "new") as new:
        assert new.cuts.all()[0].cloth.name == "Crêpe"


def test_a_photograph_that_is_not_in_the_file_is_named(file, tmp_path):
    """The ledger knows which there must be."""
    files = {n: c for n, c in files_of(file).items() if not n.endswith(".jpg") or "-small" in n}

    assert [f.kind for f in verify(written(tmp_path / "few.zip", files)).faults] == [
        "photo_missing"]


@pytest.mark.parametrize("step", ["write_private", "the marker"])
def test_a_disk_that_fails_on_the_way_changes_nothing_and_blames_nobody(
    file, tmp_path, monkeypatch, step
):
    """The message speaks of the disk, not of the backup, and a second try succeeds."""
    def full(*_args, **_kwargs):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        if step == "write_private":
            broken.setattr(restoring, "write_private", full)
        else:
            broken.setattr(restoring.swap, "mark_ready", full)
        with pytest.raises(Unavailable, match="restore_disk"):
            restore(file, tmp_path / "new")
    assert nothing_in(tmp_path / "new")

    assert restore(file, tmp_path / "new").ok
    assert check(tmp_path / "new").ok


def test_a_disk_that_is_too_small_is_said_before_anything_is_written(
    file, tmp_path, monkeypatch
):
    """As the system tells how much is free."""
    monkeypatch.setattr(restoring.shutil, "disk_usage", lambda _: shutil._ntuple_diskusage(
        10**9, 10**9, 1000))
    with pytest.raises(Unavailable, match="disk_too_small"):
        restore(file, tmp_path / "new")
    assert nothing_in(tmp_path / "new")


SLOWLY = """
import sys, time
from pathlib import Path
from stash.store.backup import restore, swap
rename = Path.replace
def slow(self, target):
    time.sleep(0.02)
    return rename(self, target)
Path.replace = slow
write = restore.write_private
def slow_write(path, content):
    time.sleep(0.02)
    write(path, content)
restore.write_private = slow_write
print("begun", flush=True)
restore.restore(Path(sys.argv[1]), Path(sys.argv[2]))
"""


@pytest.mark.skipif(os.name == "nt", reason="there is no SIGKILL on Windows")
@pytest.mark.parametrize("after_s", [0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8])
def test_a_restore_that_is_killed_is_whole_or_nothing_and_may_be_run_again(
    stash, tmp_path, after_s
):
    """Killed anywhere on its way: the folder holds nothing, or all with every photograph."""
    code = stash.cuts.all()[0].code
    for shade in range(6):
        stash.photos.add(code, picture((shade * 40, 90, 200)))
    file, place = tmp_path / "loft.zip", tmp_path / "new"
    back_up(stash, file)
    run = subprocess.Popen(
        [sys.executable, "-c", SLOWLY, str(file), str(place)], stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    run.stdout.readline()
    time.sleep(after_s)
    run.send_signal(signal.SIGKILL)
    run.wait()
    run.stdout.close()

    if place.exists():
        with open_stash(place) as found:
            if found.ledger.latest(1):
                assert list(found.ledger.events()) == list(stash.ledger.events())
                found.close()
                assert check(place).ok
                return
    assert restore(file, place).ok
    assert check(place).ok


@settings(suppress_health_check=[
    HealthCheck.function_scoped_fixture, HealthCheck.too_slow], max_examples=60)
@given(start=st.integers(0, 6000), junk=st.binary(min_size=1, max_size=40))
def test_a_damaged_file_never_does_harm(file, tmp_path, start, junk):
    """Bytes overwritten anywhere: a whole record, or a refusal and nothing."""
    content = bytearray(file.read_bytes())
    content[start : start + len(junk)] = junk
    path = tmp_path / "damaged.zip"
    path.write_bytes(content)
    with tempfile.TemporaryDirectory() as folder:
        try:
            restore(path, Path(folder) / "new")
        except (InvalidInput, StoreTooNew):
            assert nothing_in(Path(folder) / "new")
        else:
            with open_stash(Path(folder) / "new") as new:
                assert len(new.cuts.all()) == 1


def test_a_missing_file_is_said_to_be_missing(tmp_path):
    """And nothing is made for it."""
    for attempt in (lambda: verify(tmp_path / "none.zip"),
                    lambda: restore(tmp_path / "none.zip", tmp_path / "new")):
        with pytest.raises(StashError, match="no_such_file"):
            attempt()
