"""The whole stash goes into one file and comes out of it the same."""

from __future__ import annotations

import io
import json
import tempfile
import zipfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from stash.errors import Conflict, InvalidInput, StoreTooNew
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline, Person, Plan
from stash.store import open_stash
from stash.store.parcel import Unpacked, pack, unpack


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
        out = io.BytesIO()
        Image.new("RGB", (30, 20), "teal").save(out, "PNG")
        stash.photos.add(code, out.getvalue())
        yield stash


@pytest.fixture
def empty(tmp_path):
    """An empty stash of its own."""
    with open_stash(tmp_path / "new") as stash:
        yield stash


@pytest.fixture
def parcel(stash, tmp_path):
    """The stash in one file."""
    path = tmp_path / "loft.zip"
    pack(stash, path)
    return path


def test_what_comes_out_is_what_went_in(stash, empty, parcel):
    """Every event with its hand and token, every state, every photograph."""
    taken = unpack(empty, parcel)
    assert taken == Unpacked(len(list(stash.ledger.events())), photos=2, photos_lost=0)
    assert list(empty.ledger.events()) == list(stash.ledger.events())
    assert empty.ledger.cached() == stash.ledger.cached()
    code = stash.cuts.all()[0].code
    photo = stash.photos.of(code)[0]
    same = stash.photos.file(code, photo.id).read_bytes()
    assert empty.photos.file(code, photo.id).read_bytes() == same
    assert empty.search("crepe") == stash.search("crepe")


def test_life_goes_on_after_coming_out(empty, parcel):
    """New events get new numbers, and old tokens are still known."""
    unpack(empty, parcel)
    code = empty.cuts.all()[0].code
    newest = max(event.id for event in empty.ledger.events())
    assert empty.cuts.cut_off(code, 10.0).id == newest + 1


def test_it_only_goes_into_an_empty_stash(stash, parcel):
    """Two histories cannot be mixed; nothing changes."""
    before = stash.ledger.cached()
    with pytest.raises(Conflict, match="empty folder"):
        unpack(stash, parcel)
    assert stash.ledger.cached() == before


@pytest.mark.parametrize("spoil", ["line lost", "line altered", "no contents", "another form"])
def test_a_spoilt_file_is_refused_and_nothing_is_taken_from_it(empty, parcel, tmp_path, spoil):
    """The number and the checksum of the events tell."""
    with zipfile.ZipFile(parcel) as old:
        files = {name: old.read(name) for name in old.namelist()}
    if spoil == "line lost":
        files["ledger.jsonl"] = b"".join(files["ledger.jsonl"].splitlines(keepends=True)[:-1])
    elif spoil == "line altered":
        files["ledger.jsonl"] = files["ledger.jsonl"].replace(b"2000", b"3000")
    elif spoil == "no contents":
        del files["contents.json"]
    else:
        files["contents.json"] = b'{"form": "a recipe", "version": 1}'
    path = written(tmp_path / "spoilt.zip", files)
    with pytest.raises(InvalidInput, match="nothing was taken"):
        unpack(empty, path)
    assert empty.ledger.cached() == {}
    assert list(empty.ledger.events()) == []


def test_a_file_of_a_newer_version_is_refused(empty, parcel, tmp_path):
    """It may hold what this version would lose."""
    with zipfile.ZipFile(parcel) as old:
        files = {name: old.read(name) for name in old.namelist()}
    contents = json.loads(files["contents.json"]) | {"version": 99}
    files["contents.json"] = json.dumps(contents).encode()
    with pytest.raises(StoreTooNew):
        unpack(empty, written(tmp_path / "newer.zip", files))


def test_a_name_that_leads_out_of_the_folder_is_not_followed(empty, parcel, tmp_path):
    """Only photographs under label codes are unpacked."""
    with zipfile.ZipFile(parcel) as old:
        files = {name: old.read(name) for name in old.namelist()}
    files["photos/../../escaped.jpg"] = b"x"
    unpack(empty, written(tmp_path / "sly.zip", files))
    assert not list(tmp_path.rglob("escaped*"))


def test_a_damaged_photograph_does_not_keep_the_ledger_back(empty, parcel):
    """The picture is left out and counted; the record is whole."""
    content = bytearray(parcel.read_bytes())
    at = content.index(b"\xff\xd8\xff")
    content[at + 20 : at + 40] = bytes(20)
    parcel.write_bytes(content)
    taken = unpack(empty, parcel)
    assert (taken.photos, taken.photos_lost) == (1, 1)
    assert empty.cuts.all()[0].cloth.name == "Crêpe"


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
@given(start=st.integers(0, 6000), junk=st.binary(min_size=1, max_size=40))
def test_a_damaged_file_never_does_harm(empty, parcel, tmp_path, start, junk):
    """Bytes overwritten anywhere: a whole stash, or a refusal and an empty one."""
    content = bytearray(parcel.read_bytes())
    content[start : start + len(junk)] = junk
    path = tmp_path / "damaged.zip"
    path.write_bytes(content)
    with tempfile.TemporaryDirectory() as folder, open_stash(Path(folder)) as into:
        try:
            unpack(into, path)
        except (InvalidInput, StoreTooNew):
            assert into.ledger.cached() == {}
        else:
            assert len(into.cuts.all()) == 1


def written(path, files):
    """A zip of these files."""
    with zipfile.ZipFile(path, "w") as parcel:
        for name, content in files.items():
            parcel.writestr(name, content)
    return path
