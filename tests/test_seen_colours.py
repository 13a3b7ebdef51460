"""A colour told by a photograph: kept with how sure it is; the surer one stays."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from click.testing import CliRunner
from test_web_jobs import wait

from stash.errors import InvalidInput, SurerFigure
from stash.eye.colour.photographed import Light, SeenColour
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline
from stash.store import open_stash
from stash.workroom import history
from stash.workroom.entering import enter
from stash.workroom.measuring import SeenBin, receive_seen
from stash.workroom.origins import colour_known, said_of_colour
from stash.workroom.questions.likeness import ask_notions_like
from stash.workroom.seen_colours import keep_seen_colour, with_colour
from web.command import main

DAY = SeenColour(colour="#2f6b6b", lab=(41.0, -20.0, -7.0), error_de00=6.0, light=Light.DAYLIGHT)
LAMP = SeenColour(colour="#2f6f60", lab=(42.0, -24.0, 0.0), error_de00=12.0, light=Light.WARM)
DARK = SeenColour(colour="#2f6f60", lab=(42.0, -24.0, 0.0), error_de00=15.0, light=Light.UNKNOWN)


@pytest.fixture
def stash(tmp_path):
    """An empty stash."""
    with open_stash(tmp_path) as opened:
        yield opened


@pytest.fixture
def reel(stash):
    """The code of a reel of thread whose colour was chosen by eye."""
    return stash.bins.receive(Bin(code="", amount=100_000.0, notion=Notion(
        kind=NotionKind.THREAD, name="Thread", colour="#336677"))).code


@pytest.fixture
def print_cut(stash):
    """The code of a cut of a print in two colours."""
    return stash.cuts.receive(Cut(code="", outline=Outline.rectangle(1000, 1400), cloth=Cloth(
        name="Print", colours=("#f5f0e0", "#30605a")))).code


def test_a_colour_by_daylight_takes_the_place_of_one_chosen_by_eye(stash, reel):
    """And the bin says from then on how sure its colour is."""
    assert not said_of_colour(stash, stash.bins.get(reel))

    keep_seen_colour(stash, reel, DAY)

    held = stash.bins.get(reel)
    assert held.notion.colour == DAY.colour
    [said] = said_of_colour(stash, held)
    assert (said.kind, said.values["error_number"]) == ("colour_photographed", 6.0)


def test_warm_light_does_not_overrule_daylight_unless_told_to(stash, reel):
    """The record stays as it was; what is said names both errors."""
    keep_seen_colour(stash, reel, DAY)

    with pytest.raises(SurerFigure) as refused:
        keep_seen_colour(stash, reel, LAMP)

    assert refused.value.fact.values["recorded_number"] == 6.0
    assert stash.bins.get(reel).notion.colour == DAY.colour
    keep_seen_colour(stash, reel, LAMP, replace_surer=True)
    assert stash.bins.get(reel).notion.colour == LAMP.colour


def test_after_a_colour_was_typed_the_photograph_before_it_binds_nothing(stash, reel):
    """What she wrote herself since then is what is on record."""
    keep_seen_colour(stash, reel, DAY)
    stash.bins.correct(reel, replace(stash.bins.get(reel).notion, colour="#880000"))

    assert not said_of_colour(stash, stash.bins.get(reel))
    keep_seen_colour(stash, reel, LAMP)
    assert stash.bins.get(reel).notion.colour == LAMP.colour


def test_of_a_print_the_nearest_of_its_colours_is_put_right(stash, print_cut):
    """The ground keeps its own."""
    keep_seen_colour(stash, print_cut, DAY)

    assert stash.cuts.get(print_cut).cloth.colours == ("#f5f0e0", DAY.colour)
    assert with_colour((), DAY.colour) == (DAY.colour,)


def test_a_picture_without_greys_is_not_worth_keeping(stash, reel):
    """It says what to lay beside the thing."""
    with pytest.raises(InvalidInput):
        keep_seen_colour(stash, reel, DARK)


def test_one_undo_takes_the_colour_back(stash, reel):
    """One event, one undo."""
    event = keep_seen_colour(stash, reel, DAY)

    history.undo(stash, event.id)

    held = stash.bins.get(reel)
    assert held.notion.colour == "#336677" and not said_of_colour(stash, held)


def test_notions_of_about_a_colour_come_nearest_first(stash, reel):
    """CIEDE2000: a reel of the colour itself before one a shade off; another colour not at all."""
    far = [stash.bins.receive(Bin(code="", amount=1.0, notion=Notion(
        kind=NotionKind.BUTTON, name=colour, colour=colour))).code
        for colour in ("#2f6b6b", "#b5532a")]

    assert [one.held.code for one in ask_notions_like(stash, "#2f6b6b")] == [far[0], reel]


def test_a_refused_colour_can_be_put_on_record_all_the_same(
    web_client, web_stash, monkeypatch
):
    """The form stays open with its place and its code, and offers to overrule."""
    from web.jobs import Job
    from web.pages import measuring

    code = web_stash.bins.receive(Bin(code="", amount=1.0, notion=Notion(
        kind=NotionKind.BUTTON, name="Horn"))).code
    keep_seen_colour(web_stash, code, DAY)
    job = wait(web_client.application.extensions["jobs"].start(
        Job(title="tap", question=measuring.PhotoQuestion("colours", b"", None, "")),
        lambda _job: measuring.PhotoAnswer(None, b"", (400, 300))))
    monkeypatch.setattr(measuring, "colours_in", lambda _data, _spots: (LAMP,))
    typed = {"at": "10,20", "code": code}

    refused = web_client.post(f"/measure/{job.key}/colour", data=typed)
    assert refused.status_code == 409
    assert 'name="replace"' in refused.text and f'value="{code}"' in refused.text
    assert 'value="10,20"' in refused.text and "data-coloured hidden" not in refused.text

    web_client.post(f"/measure/{job.key}/colour", data={**typed, "replace": "1"})
    assert web_stash.bins.get(code).notion.colour == LAMP.colour


def test_what_a_photograph_counted_keeps_how_sure_its_colour_is(stash):
    """The bin comes in with it, as one event, and its figures tell a program so."""
    pour = Bin(code="", amount=12.0, notion=Notion(kind=NotionKind.BUTTON, name="Horn"))

    event, [code] = receive_seen(stash, [SeenBin(held=pour, colour=DAY)])

    held = stash.bins.get(code)
    assert held.notion.colour == DAY.colour
    assert colour_known(stash, held) == {
        "colour": DAY.colour, "error_de00": 6.0, "light": "daylight"}
    assert [one.id for one in history.of(stash, code)] == [event.id]


@pytest.mark.parametrize("colours, kept", [((DAY.colour,), True), (("#880000",), False)])
def test_a_cut_that_comes_in_with_its_photograph_keeps_how_sure_its_colour_is(
    stash, colours, kept
):
    """Where the photograph told it; what she said herself is hers."""
    cut = Cut(code="", outline=Outline.rectangle(1000, 1400),
              cloth=Cloth(name="Dune", colours=colours))

    done = enter(stash, cut, None, None, colour=DAY)

    assert bool(said_of_colour(stash, done.now.cut)) is kept


def test_a_program_is_told_how_sure_a_colour_is(tmp_path, run):
    """Of what was chosen by eye nothing is claimed."""
    with open_stash(tmp_path) as stash:
        reel = stash.bins.receive(Bin(code="", amount=100_000.0, notion=Notion(
            kind=NotionKind.THREAD, name="Thread", colour="#336677"))).code
        before = run("bin", "show", reel)["colour_known"]
        keep_seen_colour(stash, reel, LAMP)

    assert before is None
    assert run("bin", "show", reel)["colour_known"] == {
        "colour": LAMP.colour, "error_de00": 12.0, "light": "warm"}


@pytest.fixture
def run(tmp_path):
    """One command over the stash, as JSON."""
    def ran(*words):
        done = CliRunner().invoke(main, ["--data", str(tmp_path), *words, "--json"])
        assert done.exit_code == 0, done.output
        return json.loads(done.output)

    return ran
