"""Forms sent with what no button sends: one sentence, what was typed stays, nothing on record."""

from __future__ import annotations

import io
import os
import re
import threading

import pytest
from PIL import Image
from until import until

from stash.model import Cloth, Cut, Outline
from web.jobs import AT_ONCE, Job, State

LONG = "Sailcloth from the attic " * 9
"""225 letters."""


@pytest.fixture
def cut(web_stash):
    """A cut of 3 m."""
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code


def events(stash) -> int:
    """How many entries there are."""
    return stash.ledger.newest()


def photo() -> tuple[io.BytesIO, str]:
    """A small photograph."""
    out = io.BytesIO()
    Image.new("RGB", (60, 40), "teal").save(out, "PNG")
    return io.BytesIO(out.getvalue()), "cloth.png"


@pytest.mark.parametrize("nonsense", ["felted by moonlight", "WOVEN", "0", "😀", "a" * 150])
def test_a_construction_that_is_none_is_refused(web_client, web_stash, cut, nonsense):
    """A new cut, and the facts of one that is there."""
    before = events(web_stash)
    new = web_client.post("/cuts/new", data={
        "cloth": "Heather", "length": "2 m", "width": "140 cm", "construction": nonsense})
    facts = web_client.post(f"/cuts/{cut}/facts", data={
        "facts": "1", "name": "Dune", "construction": nonsense})

    assert (new.status_code, facts.status_code) == (422, 422)
    assert "Choose from the list how the cloth is made" in facts.text
    assert "Heather" in new.text
    assert events(web_stash) == before


@pytest.mark.parametrize("nonsense", ["cubits", "0", "metric inches"])
def test_units_that_are_none_are_refused(web_client, web_stash, nonsense):
    """The settings stay as they are."""
    page = web_client.get("/settings/").text
    names = re.findall(r'name="([a-z_]+)-as-shown"', page)
    rest = {f"{name}-as-shown": "" for name in (*names, "machines", "language", "address")}
    answer = web_client.post("/settings/", data=rest | {"units": nonsense})

    assert answer.status_code == 422
    assert "units are" in answer.text.lower() or nonsense in answer.text
    assert web_client.get("/settings/").status_code == 200


@pytest.mark.parametrize("nonsense", ["spiral", "PLAIN", "0"])
def test_a_layout_of_labels_that_is_none_is_refused(web_client, cut, nonsense):
    """With a sentence above the form."""
    answer = web_client.post("/labels/", data={
        "code": cut, "which": "chosen", "sheet": "a4-24", "start": "1",
        "layout": nonsense})

    assert answer.status_code == 422
    assert "Choose from the list what is drawn" in answer.text


@pytest.mark.parametrize("nonsense", ["soon", "-1 m", "9" * 400, "0", "nan", "1 furlong", "½ ½"])
def test_a_quick_length_that_is_none_is_refused(web_client, web_stash, cut, nonsense):
    """A quick button with another value than it was given."""
    before = events(web_stash)
    answer = web_client.post(f"/cuts/{cut}/cut-off", data={"quick": nonsense})

    assert answer.status_code in (409, 422)
    assert events(web_stash) == before
    assert web_stash.cuts.get(cut).length_mm == 3000


def test_a_tracing_of_a_remnant_that_has_not_ended_cannot_be_kept(web_client, web_stash, cut):
    """Nor one that was taken out of the queue."""
    jobs, ended = web_client.application.extensions["jobs"], threading.Event()
    running = [jobs.start(Job(title="running"), lambda job: ended.wait())
               for _ in range(AT_ONCE)]
    try:
        until(lambda: all(job.state is State.WORKING for job in running))
        where = web_client.post(f"/tracing/remnant/{cut}", data={"photo": photo()}).location
        before = events(web_stash)
        early = web_client.post(f"{where}/keep")
        web_client.post(f"/waiting/{where.rpartition('/')[2]}/stop")
        stopped = web_client.post(f"{where}/keep")
    finally:
        ended.set()

    assert (early.status_code, stopped.status_code) == (409, 409)
    assert "has not ended yet" in early.text
    assert events(web_stash) == before


@pytest.mark.parametrize("form", ["pdf", "svg", "dxf", "exe", "p" * 300])
def test_a_draft_under_the_patterns_of_her_own_is_not_found(web_client, form):
    """A draft is no pattern on record: 404 and a sentence."""
    for draft in ("tote-bag", "trousers"):
        answer = web_client.get(f"/patterns/own/{draft}/pattern.{form}")
        assert answer.status_code == 404
        assert "Traceback" not in answer.text


def test_a_photograph_cannot_be_put_where_nothing_may_be_written(
    web_client, web_stash, cut, monkeypatch
):
    """A read-only folder of photographs: a sentence, and no entry without its picture."""
    from stash.store import photos

    before = events(web_stash)

    def read_only(*_given, **_named):
        raise PermissionError(13, "Permission denied")

    if os.geteuid() == 0:  # whom no mode of a folder keeps out
        monkeypatch.setattr(photos, "write_private", read_only, raising=False)
        monkeypatch.setattr("pathlib.Path.mkdir", read_only)
    else:
        (web_stash.folder.path / "photos").chmod(0o500)
    answer = web_client.post(f"/photos/{cut}", data={"photo": photo()})

    assert answer.status_code < 500 or answer.status_code == 503
    assert answer.status_code >= 400
    assert events(web_stash) == before


def test_a_text_that_is_too_long_is_refused_and_says_how_long_it_may_be(
    web_client, web_stash, cut
):
    """Never cut without a word, whichever form it is typed in."""
    before = events(web_stash)
    asked = {
        "/cuts/new": {"cloth": LONG, "length": "2 m", "width": "140 cm"},
        f"/cuts/{cut}/facts": {"facts": "1", "name": LONG},
        "/bins/new": {"kind": "button", "name": LONG, "amount": "3"},
        "/places/": {"name": LONG},
        f"/cuts/{cut}/move": {"place": LONG},
    }
    for path, form in asked.items():
        answer = web_client.post(path, data=form)
        assert answer.status_code == 422, path
        assert "225" in answer.text or "224" in answer.text, path
        assert "200" in answer.text, path
    assert events(web_stash) == before


def test_a_text_of_just_that_length_is_kept_whole(web_client, web_stash):
    """200 letters, the last one too."""
    name = "x" * 199 + "y"
    web_client.post("/cuts/new", data={"cloth": name, "length": "2 m", "width": "140 cm"})

    assert [held.cloth.name for held in web_stash.cuts.all()] == [name]


def test_the_name_of_a_pattern_file_is_not_cut(web_client):
    """It would become the pattern's name."""
    svg = (b'<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" '
           b'viewBox="0 0 300 200"><path d="M0 0H300V200H0Z"/></svg>')
    answer = web_client.post("/patterns/import", data={
        "file": (io.BytesIO(svg), "s" * 221 + ".svg"), "units": "mm"})

    assert answer.status_code == 422
    assert "225" in answer.text
