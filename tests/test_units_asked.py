"""Before the first length is typed she is asked how she measures, wherever a length can be typed.

What a bare number means is never changed by the browser's language: only by her own tap.
"""

import pytest

from stash.ledger import Kind
from stash.model import Cloth, Cut, Outline
from stash.units import System
from stash.workroom import settings

ASKED = "How do you measure?"
WHERE = ["/", "/entry/", "/settings/", "/cuts/new", "/bins/new", "/people/new"]


@pytest.mark.parametrize("path", WHERE)
@pytest.mark.parametrize("language", ["en-US", "en-GB", "fr", "de"])
def test_an_empty_stash_asks_wherever_a_length_may_be_typed(web_client, path, language):
    """In every language, so that nobody begins in units she does not read."""
    page = web_client.get(path, headers={"Accept-Language": language}).text
    assert 'name="units" value="inches"' in page


@pytest.mark.parametrize("chosen", list(System))
@pytest.mark.parametrize("path", WHERE)
def test_one_tap_decides_and_the_page_comes_back_without_the_question(
        web_client, web_stash, chosen, path):
    """The usual units are recorded as chosen too, else the question would never end."""
    answer = web_client.post("/settings/units", data={"units": chosen.value, "back": path})
    assert answer.status_code == 303
    assert answer.location == path
    page = web_client.get(path).text
    assert ASKED not in page
    assert settings.units(web_stash) is chosen


def test_a_browser_of_the_united_states_alone_changes_nothing(web_client, web_stash):
    """150 typed before anything was chosen is a metre and a half, whoever asks."""
    web_client.get("/", headers={"Accept-Language": "en-US"})
    assert settings.units(web_stash) is System.METRIC
    assert settings.units_open(web_stash)


def test_once_something_is_measured_it_is_asked_no_longer(web_client, web_stash):
    """What is on record was typed in some units, and those stay."""
    linen = Cut(code="", cloth=Cloth(name="Linen"), outline=Outline.rectangle(1500, 1400))
    web_stash.cuts.receive(linen)
    assert not settings.units_open(web_stash)
    for path in WHERE:
        assert ASKED not in web_client.get(path).text


def test_the_choice_is_undone_where_it_was_made(web_client, web_stash):
    """A tap beside the button meant costs nothing."""
    web_client.post("/settings/units", data={"units": "inches", "back": "/"})
    page = web_client.get("/").text
    assert "Lengths are in yards and inches" in page
    (event,) = [e for e in web_stash.ledger.events() if e.kind is Kind.CORRECTION]
    web_client.post("/history/undo", data={"event": event.id, "back": "/"})
    assert ASKED in web_client.get("/").text
    assert settings.units(web_stash) is System.METRIC


def test_units_that_nobody_knows_are_refused(web_client, web_stash):
    """One sentence, and the question still stands."""
    assert web_client.post("/settings/units", data={"units": "ells"}).status_code == 422
    assert settings.units_open(web_stash)
