"""What a page says about what was recorded is so."""

from __future__ import annotations

import io
import sqlite3
import threading

import pytest
from PIL import Image

from stash.model import Cloth, Cut, Outline, Person
from stash.store import open_stash
from web import create_app


@pytest.fixture
def cut(web_stash):
    """A cut of 3 m."""
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code


def failing(web_data, *, after_write):
    """A client of an app with one page that fails, before or after it has recorded."""
    from web.request_stash import stash

    app = create_app(web_data)

    @app.post("/fails")
    def fails():
        if after_write:
            stash().people.save(Person(name="Odile Farrant"))
        raise RuntimeError("a bug")

    return app.test_client()


def test_a_failure_before_anything_was_recorded_says_nothing_was(web_data):
    """Status 500, and nothing on record."""
    answer = failing(web_data, after_write=False).post("/fails")

    assert answer.status_code == 500
    assert "nothing was recorded" in answer.text


def test_a_failure_after_something_was_recorded_names_the_entry(web_data):
    """So that she does not enter it again."""
    answer = failing(web_data, after_write=True).post("/fails")

    assert answer.status_code == 500
    assert "nothing was" not in answer.text
    with open_stash(web_data) as stash:
        assert f"number {stash.ledger.latest()[0].id}" in answer.text


def test_a_form_sent_again_with_other_content_is_not_said_to_be_recorded(
    web_client, web_stash, cut
):
    """Back, changed, and sent again under the same token: refused, naming the entry."""
    first = {"quick": "1 m", "token": "token-of-this-form"}
    for _ in range(2):
        assert web_client.post(f"/cuts/{cut}/cut-off", data=first).status_code == 303
    answer = web_client.post(f"/cuts/{cut}/cut-off", data=first | {"quick": "20 cm"})

    assert answer.status_code == 409
    assert f"entry {web_stash.ledger.latest()[0].id}" in answer.text
    assert web_stash.cuts.get(cut).length_mm == 2000


def test_somebody_new_does_not_take_the_place_of_somebody_on_record(web_client, web_stash):
    """The page for a new person refuses a name that is there; a double tap is no quarrel."""
    form = {"name": "Odile Farrant", "hip": "98 cm", "waist": "74 cm", "token": "a-new-person-1"}
    for _ in range(2):
        assert web_client.post("/people/new", data=form).status_code == 303
    answer = web_client.post("/people/new", data={
        "name": "odile  FARRANT", "hip": "120 cm", "waist": "100 cm", "token": "a-new-person-2"})

    assert answer.status_code == 409
    assert web_stash.people.get("Odile Farrant").measurements_mm["hip"] == 980


@pytest.mark.parametrize("name", ["new", "one", "a/b", "a/../b", "x?y#z", "%2e%2e", "naïve 😀"])
def test_a_person_of_any_name_has_a_page(web_client, web_stash, name):
    """The page that a save leads to shows that person."""
    answer = web_client.post("/people/new", data={
        "name": name, "hip": "98 cm", "waist": "74 cm"}, follow_redirects=True)

    assert answer.status_code == 200
    assert web_stash.people.get(name).name == name
    assert 'value="98 cm"' in answer.text


def test_a_name_without_a_letter_is_refused(web_client, web_stash):
    """Two dots lead nowhere."""
    answer = web_client.post("/people/new", data={"name": "..", "hip": "98 cm", "waist": "74 cm"})

    assert answer.status_code == 422
    assert web_stash.people.all() == []


@pytest.mark.parametrize("harm", ["gone", "empty", "damaged"])
def test_a_lost_record_leads_to_its_copies_and_one_tap_brings_it_back(
    web_client, web_data, web_stash, cut, harm
):
    """Not to a new and empty stash."""
    from stash.store.backup.daily import keep_copy
    from stash.store.folder import DataFolder

    keep_copy(web_stash.ledger.db, DataFolder(web_data), web_stash.ledger.hand.clock().date())
    web_stash.close()
    for end in ("", "-wal", "-shm"):
        (web_data / f"stash.db{end}").unlink(missing_ok=True)
    if harm != "gone":
        (web_data / "stash.db").write_bytes(b"" if harm == "empty" else b"SQLite format 3\0" * 99)

    page = web_client.get("/")
    assert page.status_code == 503
    assert "/record/" in page.text
    assert "Bring back this copy" in web_client.get("/record/").text
    assert web_client.post("/record/mend").status_code == 303
    assert "Dune" in web_client.get("/").text


def test_the_page_of_copies_says_when_and_where(web_client, web_stash, cut):
    """And gives a backup that can be verified."""
    from stash.store.backup.verify import verify

    assert "last copy" in web_client.get("/record/").text
    assert "The record is sound" in web_client.post("/record/check").text
    answer = web_client.get("/record/backup.zip")
    path = web_stash.folder.path.parent / "b.zip"
    path.write_bytes(answer.data)
    answer.close()
    assert verify(path).events == len(list(web_stash.ledger.events()))


def test_six_equal_photographs_at_once_are_one(web_data, web_client, cut, monkeypatch):
    """Each request is answered, however long it waits for its turn; the picture is kept once."""
    monkeypatch.setattr("stash.foreign.apart.PATIENCE_S", 3600.0)
    out = io.BytesIO()
    Image.new("RGB", (60, 40), "teal").save(out, "PNG")
    app, told = web_client.application, []

    def send():
        told.append(app.test_client().post(
            f"/photos/{cut}", data={"photo": (io.BytesIO(out.getvalue()), "a.png")}).status_code)

    threads = [threading.Thread(target=send) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert told == [303] * 6
    assert len(list((web_data / "photos").rglob("*.jpg"))) == 2


@pytest.mark.parametrize("host", ["a" * 3000, "..", "x" * 70 + ".local", "[::1", "a:b:c"])
def test_a_host_that_can_be_none_is_refused_in_a_sentence(web_client, host):
    """No link can be made to it, so the sentence comes alone; never a failure."""
    for path in ("/", "/nowhere"):
        assert web_client.get(path, headers={"Host": host}).status_code < 500


@pytest.mark.parametrize("words", [
    ("person", "add", "x\udcff", "--measure", "hip=98cm"), ("cut", "gone", "1-2\udcff"),
    ("undo", "9223372036854775808"), ("undo", "-1"), ("record", "backup", ""),
    ("record", "backup", "x" * 300), ("record", "table", "100\udcff"),
    ("cut", "add", "Dune", f"{'9' * 400}m x 1m"), ("need", "tote-bag", "--seconds", "nan"),
    ("record", "copies", "--also", "é" * 200), ("scan", "é" * 200),
    ("record", "restore", "é" * 200), ("record", "verify", "é" * 200),
    ("shop", "tote-bag", "--price", "nan"), ("shop", "tote-bag", "--price", "inf"),
])
def test_a_command_with_nonsense_answers_in_a_sentence(words, tmp_path, monkeypatch):
    """Never a traceback, and nothing is recorded."""
    from click.testing import CliRunner

    from web.command import main

    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(main, ["--data", str(tmp_path / "loft"), *words])

    assert isinstance(result.exception, SystemExit), result.exception
    assert result.exit_code in (1, 2)
    assert result.output.strip()


@pytest.mark.parametrize("place", ["é" * 200, "diary/loft", "diary"])
def test_a_data_folder_that_no_disk_can_hold_is_refused_in_a_sentence(place, tmp_path, monkeypatch):
    """A name that is too long, or a file where a folder is wanted."""
    from click.testing import CliRunner

    from web.command import main

    monkeypatch.chdir(tmp_path)
    (tmp_path / "diary").write_text("dear diary")
    for words in (("cut", "list"), ("record", "check"), ("demo", "--no-serve")):
        result = CliRunner().invoke(main, ["--data", place, *words])
        assert isinstance(result.exception, SystemExit), result.exception
        assert result.output.strip()


def test_a_photograph_is_as_old_as_it_is(web_client, web_stash, web_data, cut):
    """Its file is dated when it was kept, in copies and in a backup too."""
    import time

    out = io.BytesIO()
    Image.new("RGB", (60, 40), "teal").save(out, "PNG")
    web_client.post(f"/photos/{cut}", data={"photo": (io.BytesIO(out.getvalue()), "a.png")})
    [large, _small] = sorted((web_data / "photos").rglob("*.jpg"), key=lambda p: len(p.name))

    assert abs(large.stat().st_mtime - time.time()) < 600
    answer = web_client.get(f"/photos/{cut}/{large.stem}")
    assert answer.last_modified.year >= 2026
    answer.close()


def altered(place):
    """The record, with what one entry says written otherwise behind the ledger's back."""
    with open_stash(place) as stash:
        stash.settle()
    db = sqlite3.connect(place / "stash.db")
    db.execute("UPDATE event SET change = replace(change, '\"outline\"', '\"outlime\"')")
    db.commit()
    db.close()


def test_a_page_that_fails_over_an_altered_entry_leads_to_the_repair(
    web_client, web_stash, web_data, cut
):
    """It is no bug that trying again would help with; nor is a page that is one called that."""
    web_client.get("/report/")
    web_stash.close()
    altered(web_data)
    (web_data / "turnover.db").unlink(missing_ok=True)

    answer = web_client.get("/report/")

    assert answer.status_code == 503
    assert "not sound" in answer.text
    assert "/record/" in answer.text


def test_a_command_that_fails_over_an_altered_entry_says_so(web_stash, web_data, cut, tmp_path):
    """And a backup of such a record is written, but never called sound."""
    from click.testing import CliRunner

    from web.command import main

    web_stash.close()
    altered(web_data)
    failed = CliRunner().invoke(main, ["--data", str(web_data), "report"])
    backed_up = CliRunner().invoke(
        main, ["--data", str(web_data), "record", "backup", str(tmp_path / "b.zip")])
    db = sqlite3.connect(web_data / "stash.db")
    db.execute("UPDATE event SET change = 'not json' WHERE id = 1")
    db.commit()
    db.close()
    refused = CliRunner().invoke(
        main, ["--data", str(web_data), "record", "backup", str(tmp_path / "c.zip")])

    for result, said in ((failed, "not sound"), (backed_up, "Entry 1"), (refused, "damaged")):
        assert isinstance(result.exception, SystemExit), result.exception
        assert result.exit_code == 1
        assert said in result.output
    assert (tmp_path / "b.zip").exists() and not (tmp_path / "c.zip").exists()
