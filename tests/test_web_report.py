"""The pictures of the stash, looking back: each with words, and its table beside it."""

from __future__ import annotations

import re
import threading

import pytest
from until import once_over

from stash.model import Cloth, Cut, FibreShare, Outline
from stash.workroom.report import bring_up


@pytest.fixture
def stocked(web_stash):
    """Three metres of cotton and one of wool."""
    for length_mm, fibre, colour in ((3000.0, "cotton", "#7a1f2b"), (1000.0, "wool", "#1a1a1a")):
        web_stash.cuts.receive(Cut(
            code="", outline=Outline.rectangle(length_mm, 1400.0), acquired="2020",
            cloth=Cloth(name=f"A {fibre}", colours=(colour,), fibres=(FibreShare(fibre, 100),))))


def test_each_picture_says_in_words_what_it_draws(web_client, stocked):
    """By fibre, colour, length and age; the most first."""
    page = web_client.get("/report/").text
    assert 'aria-label="What there is by fibre: cotton 3.00 m; wool 1.00 m"' in page
    assert page.count('<svg class="bars"') == 4
    for title in ("fibre", "colour", "length", "age"):
        assert f'aria-labelledby="by-{title}"' in page


def test_each_table_is_a_spreadsheet_too(web_client, stocked):
    """Running millimetres, and how many cuts."""
    text = web_client.get("/report/stash.csv?by=fibre").text
    assert text.lstrip("\ufeff").split("\r\n")[:3] == [
        "group,cuts,running_mm", "cotton,1,3000.0", "wool,1,1000.0"]


def test_an_empty_stash_has_no_pictures(web_client, web_stash):
    """And its page says nothing is there."""
    assert '<svg class="bars"' not in web_client.get("/report/").text


def test_a_long_past_is_shown_by_its_largest_rows_and_newest_lays(web_client, stocked, monkeypatch):
    """The rest is in the table; nothing is left out without a word."""
    monkeypatch.setattr("web.pages.report.MOST_ROWS", 1)
    page = web_client.get("/report/?by=fibre").text
    assert '<th scope="row">cotton</th>' in page.partition('id="stash"')[0]
    assert '<th scope="row">wool</th>' not in page.partition('id="stash"')[0]
    assert "1 of 2, those with the most cloth; the table (CSV) has all." in page
    assert "wool" in web_client.get("/report/report.csv?by=fibre").text


def test_a_long_past_is_summed_up_in_the_background_the_first_time(
    web_client, stocked, monkeypatch
):
    """Meanwhile the page says how far that is; then it looks back, and never waits again."""
    go_on, begun = threading.Event(), threading.Event()

    def slowly(stash, progress):
        progress(1000, 5000)
        begun.set()
        go_on.wait()
        bring_up(stash, progress)

    monkeypatch.setattr("web.pages.report.bring_up", slowly)
    monkeypatch.setattr("stash.workroom.report.SUMMED_MEANWHILE", 1)
    try:
        web_client.get("/report/")
        begun.wait()
        page = web_client.get("/report/?by=fibre").text
        french = web_client.get("/report/", headers={"Accept-Language": "fr"}).text
    finally:
        go_on.set()
    assert "Summing up all that came and went" in page and "1000/5000" in page
    assert "<h1>Looking back</h1>" in page and "<h1>Looking back</h1>" not in french
    once_over(web_client, re.search(r'data-job="/waiting/([^/]+)/state"', page)[1])
    assert '<th scope="row">wool</th>' in web_client.get("/report/?by=fibre").text


def test_where_no_sums_can_be_kept_it_looks_back_all_the_same(
    web_client, web_stash, stocked, monkeypatch
):
    """Nobody is left waiting for what cannot be written down."""
    web_stash.turnover.path.mkdir()
    monkeypatch.setattr("stash.workroom.report.SUMMED_MEANWHILE", 1)
    found = re.search(r'data-job="/waiting/([^/]+)/state"', web_client.get("/report/").text)
    if found:
        once_over(web_client, found[1])
    assert "In and used" in web_client.get("/report/").text
