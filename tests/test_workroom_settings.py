"""What is decided once is read in one room: page, commands and shop obey the same."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stash.model import Person
from stash.workroom.errand import HopedFor, for_garments
from web.command import main


@pytest.fixture
def run(web_stash):
    """Runs ``lengthwise`` on the stash of the pages; JSON where it was asked for."""
    def run(*words, status=0):
        result = CliRunner().invoke(main, ["--data", str(web_stash.folder.path), *words])
        assert result.exit_code == status, result.output
        return json.loads(result.output) if "--json" in words else result.output
    return run


def test_a_command_sets_what_the_page_shows(run, web_client):
    """Set at the terminal, read in the browser."""
    run("settings", "set", "edge=7mm", "widths=114 cm,150 cm", "off-grain-deg=2")

    page = web_client.get("/settings/").text
    assert 'value="7 mm"' in page
    assert "114 cm, 150 cm" in page
    shown = run("settings", "show", "--json")
    assert (shown["edge_mm"], shown["widths_mm"]) == (7.0, [1140.0, 1500.0])


def test_shops_by_the_yard_sell_their_own_widths(run):
    """36, 45, 54, 58 and 60 in, the heads of the yardage charts; not 90 cm told as 35 3/8 in."""
    run("settings", "set", "units=inches")

    assert "36 in, 45 in, 54 in, 58 in, 60 in" in run("settings", "show")


def test_a_setting_that_stands_is_not_recorded_again(run):
    """The second time nothing happened, so there is no event."""
    assert run("settings", "set", "units=inches", "--json")["event"]
    assert run("settings", "set", "units=inches", "--json")["event"] is None


@pytest.mark.parametrize("units", ["metric", "inches"])
def test_what_is_shown_of_every_setting_sets_the_same_again(run, units):
    """Every one of them changed first, so that none is shown by its default."""
    run("settings", "set", f"units={units}", "language=de", "address=https://loft.local:5001",
        "edge=7mm", "clearance=3mm", "off-grain-deg=2", "widths=114cm,150cm", "increment=25cm",
        "selvedge=9mm", "printer-shift=1.5,-2", "machines=zigzag,overlock-3", "remnant=20cm")
    shown = run("settings", "show")
    assert "machines = zigzag, overlock-3" in shown

    run("settings", "set", *(line.replace(" = ", "=") for line in shown.splitlines()))

    assert run("settings", "show") == shown


def test_thread_for_an_overlocker_that_nobody_named_says_so(run):
    """Presumed until she names her machines; then it is reckoned for those, and says no more."""
    run("person", "add", "Odile", "--measure", "hip=100", "--measure", "waist=80")
    asked = ("shop", "trousers", "--for", "Odile", "--seconds", "1")
    assert run(*asked).count("It is presumed that you overlock raw edges") == 1
    for machines in ("zigzag", "lockstitch,overlock-4"):
        run("settings", "set", f"machines={machines}")
        assert "It is presumed that you overlock" not in run(*asked)


@pytest.mark.parametrize("pair", [
    "edge=2m", "off_grain=16", "units=ells", "colour=red", "widths=", "increment=0", "edge",
    "printer_shift=30,0", "address=two words",
])
def test_a_setting_that_cannot_be_is_refused(run, pair):
    """One sentence, and nothing is kept."""
    before = run("settings", "show", "--json")
    run("settings", "set", "clearance=3mm", pair, status=1)
    assert run("settings", "show", "--json") == before


def test_the_shop_obeys_the_settings_unless_told_otherwise(run, web_stash):
    """Widths, step and selvedge are the settings'; the errand's own win."""
    run("settings", "set", "widths=112 cm", "increment=25 cm", "selvedge=15mm")
    web_stash.people.save(Person(name="Ada Wren", measurements_mm={"hip": 1000, "waist": 780}))

    usual = for_garments(web_stash, ["trousers"], [], {}, HopedFor()).shop
    told = for_garments(web_stash, ["trousers"], [], {}, HopedFor(widths_mm=(900.0,))).shop

    assert usual.widths_mm == (1120.0,)
    assert (usual.bolt.increment_mm, usual.bolt.selvedge_mm) == (250.0, 15.0)
    assert told.widths_mm == (900.0,)


def test_a_person_is_shown_with_her_measures(run):
    """In millimetres, by name."""
    run("person", "add", "Ada Wren", "--measure", "hip=104.6cm")

    shown = run("person", "show", "Ada Wren", "--json")
    assert shown["name"] == "Ada Wren"
    assert shown["measures_mm"] == {"hip": 1046.0}
