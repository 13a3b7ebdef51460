"""People, places and settings on their pages; each checked in the record."""

import pytest

from stash.model import Person
from stash.workroom.settings import preferences


def test_a_person_is_recorded_in_centimetres(web_client, web_stash):
    """104 is 104 cm; the rest is shown as an estimate to be measured."""
    web_client.post("/people/new", data={"name": "Odile Farrant", "hip": "104", "waist": "82"})

    assert web_stash.people.get("Odile Farrant").measurements_mm == {"hip": 1040, "waist": 820}
    page = web_client.get("/people/Odile Farrant").text
    assert 'value="104 cm"' in page
    assert "Estimated: " in page


def test_new_measures_take_the_place_of_the_old_and_undo_brings_them_back(web_client, web_stash):
    """A person is re-measured on the same form."""
    web_client.post("/people/new", data={"name": "Bram", "hip": "101", "waist": "88"})
    web_client.post("/people/Bram", data={"hip": "102", "waist": "88", "inside_leg": "83"})
    assert web_stash.people.get("Bram").measurements_mm["inside_leg"] == 830

    event = web_stash.ledger.history("person:bram")[0].id
    web_client.post("/history/undo", data={"event": event})

    assert web_stash.people.get("Bram").measurements_mm == {"hip": 1010, "waist": 880}


def test_a_chest_stays_a_chest(web_client, web_stash):
    """A man's chest is shown beside “bust” and is kept under its own name."""
    web_stash.people.save(Person(name="Bram", measurements_mm={"chest": 1030, "waist": 880}))
    assert 'value="103 cm"' in web_client.get("/people/Bram").text

    web_client.post("/people/Bram", data={"bust": "104", "waist": "88"})

    assert web_stash.people.get("Bram").measurements_mm == {"chest": 1040, "waist": 880}


@pytest.mark.parametrize(("form", "sentence"), [
    ({"hip": "104", "waist": "10"}, "waist"),
    ({"hip": "104", "waist": "82 furlongs"}, "not a length"),
    ({"hip": "104", "inside_leg": "2 m"}, "inside leg"),
    ({}, "Measure at least"),
])
def test_a_body_that_cannot_be_is_refused_with_the_measurement_named(
    web_client, web_stash, form, sentence
):
    """A waist of 10 cm is a slip of the tape."""
    answer = web_client.post("/people/new", data={"name": "Pip", **form})

    assert answer.status_code == 422
    assert sentence in answer.text
    assert web_stash.people.all() == []


def test_a_place_gets_a_label_once(web_client, web_stash):
    """The second label for one shelf is refused."""
    web_client.post("/places/", data={"name": "Loft shelf 2"})

    answer = web_client.post("/places/", data={"name": "loft SHELF 2"})

    assert answer.status_code == 409
    assert [p.name for p in web_stash.places.all()] == ["Loft shelf 2"]


SETTINGS = {
    "address": "stash.local:5000", "units": "metric", "edge_mm": "5 mm", "clearance_mm": "0",
    "off_grain_deg": "2",
    "widths": "90 cm, 115 cm, 150 cm", "increment_mm": "10 cm", "selvedge_mm": "12 mm",
}


def test_settings_are_kept(web_client, web_stash):
    """Address, margins and the shop's widths reach the record."""
    web_client.post("/settings/", data=SETTINGS)

    kept = preferences(web_stash)
    assert kept.address == "http://stash.local:5000"
    assert kept.edge_mm == 5
    assert kept.off_grain_deg == 2
    assert kept.widths_mm == (900, 1150, 1500)
    assert kept.increment_mm == 100


def test_inches_change_what_every_page_reads(web_client, web_stash):
    """1.143 m is 1 1/4 yd; 1 yd stands on the rule."""
    web_client.post("/settings/", data=SETTINGS | {"units": "inches", "widths": "45 in"})
    web_client.post("/cuts/new", data={"cloth": "Drill", "length": "2 yd", "width": "45 in"})

    page = web_client.get("/").text

    assert "2 yd × 45 in" in page
    assert ">1 yd</text>" in page


@pytest.mark.parametrize(("field", "typed"), [
    ("address", "not an address"), ("widths", "wide"), ("increment_mm", "0"), ("edge_mm", "2 m"),
    ("off_grain_deg", "45"), ("off_grain_deg", "a little"),
])
def test_settings_that_cannot_be_are_refused(web_client, web_stash, field, typed):
    """Nothing is kept of a refused form."""
    answer = web_client.post("/settings/", data=SETTINGS | {field: typed})

    assert answer.status_code == 422
    assert web_stash.settings.get("widths_mm") is None
