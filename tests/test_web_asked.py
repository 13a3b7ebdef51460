"""Answers survive a restart: found again under "asked lately", sifted, side by side."""

import time

import pytest

from stash.model import Cloth, Cut, Outline, Person
from stash.store.answers import MOST_KEPT, AnswerFiles
from stash.store.folder import DataFolder
from stash.workroom.asked_lately import kept
from web import create_app


@pytest.fixture
def two(web_stash, kernels):
    """Odile, a washed and an unwashed length of drill, and a scrap."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040, "waist": 820}))
    cloth = Cloth(name="Gull drill", construction="woven", mass_gsm=230)
    sizes = ((2500, 1400, True), (2600, 1400, False), (400, 400, True))
    return [web_stash.cuts.receive(Cut(
        code="", cloth=cloth, outline=Outline.rectangle(x, y), washed=w)).code
        for x, y, w in sizes]


@pytest.fixture
def answered(web_client, two) -> str:
    """The key of an answer on an A-line skirt."""
    sent = web_client.post("/become/", data={"garment": "a-line-skirt", "person": "Odile"})
    key = sent.location.rpartition("/")[2]
    for _ in range(1200):
        if web_client.get(f"/waiting/{key}/state").json["over"]:
            return key
        time.sleep(0.05)
    raise AssertionError("the search did not end")


def test_an_answer_is_found_again_after_a_restart(web_client, web_stash, two, answered):
    """Another app on the same folder: its old address leads there, and its lay is drawn."""
    again = create_app(web_stash.folder.path).test_client()
    moved = again.get(f"/become/{answered}", follow_redirects=True)

    assert "A-line skirt" in again.get("/asked/").text
    assert moved.status_code == 200
    assert "Nothing has changed since." in moved.text
    assert again.get(f"/asked/{answered}/lay/{two[0]}.svg").text.startswith("<svg")


def test_what_was_told_and_laid_is_kept_exactly(web_client, web_stash, two, answered):
    """The lay of the washed length, to the last bit, and the facts as facts."""
    line = kept(web_stash, answered).line(two[0])

    assert line.laid.cut == web_stash.cuts.get(two[0])
    assert line.kind == "fits"
    assert line.told[0].kind == "fits"
    assert line.laid.lay.placements


def test_a_change_of_the_stash_since_is_said(web_client, web_stash, answered):
    """One more person on record is an event."""
    web_stash.people.save(Person(name="Bram", measurements_mm={"hip": 1000}))

    assert "The stash has changed since" in web_client.get(f"/asked/{answered}").text


def test_it_is_sifted_without_scripts(web_client, two, answered):
    """By verdict, and by whether the cloth is washed."""
    all_of, fits, small, washed = (
        web_client.get(f"/asked/{answered}?{query}").text
        for query in ("", "show=fits", "show=small", "show=fits&washed=yes"))

    assert all(code in all_of for code in two)
    assert two[0] in fits and two[1] in fits and two[2] not in fits
    assert two[2] in small and two[0] not in small
    assert two[0] in washed and two[1] not in washed


def test_ticked_lays_stand_side_by_side_at_one_scale(web_client, two, answered):
    """Each drawn as wide as it is long, one picture beside the other and one below."""
    page = web_client.get(f"/asked/{answered}?side={two[0]}&side={two[1]}").text

    assert page.count("<image ") == 4
    assert "Side by side, at one scale" in page


def test_an_answer_of_another_version_is_passed_over(web_client, web_stash):
    """What cannot be read is not listed, and its address says to ask again."""
    web_stash.answers.keep("unreadable-1", {"title": "?", "lines": [{"key": 1}]})

    assert "unreadable-1" not in web_client.get("/asked/").text
    assert web_client.get("/asked/unreadable-1").status_code == 404
    assert web_client.get("/asked/..%2Fsecret").status_code == 404


def test_only_so_many_are_kept(tmp_path):
    """The oldest go first."""
    files = AnswerFiles(DataFolder(tmp_path))
    for n in range(MOST_KEPT + 3):
        files.keep(f"answer-{n:04}", {"n": n})

    found = [answer["n"] for _, answer in files.all()]
    assert len(found) == MOST_KEPT
    assert max(found) == MOST_KEPT + 2
