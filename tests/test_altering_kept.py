"""An altered draft is kept as her own: its recipe, another body, by command and by page."""

from __future__ import annotations

import json
import re

import pytest
from click.testing import CliRunner
from shapely.geometry import LineString

from stash.model import Person
from stash.store import open_stash
from stash.workroom import altering, pattern_list, people
from stash.workroom.altering import Base
from stash.workroom.questions.orders import orders_for
from web.command import main

STEPS = ["move dart front waist to side 9cm",
         "slash and spread back from waist to hem, 2 cuts, 2cm each"]
WOMEN = {"Odile": {"hip": 1000.0, "waist": 740.0}, "Sunniva": {"hip": 1120.0, "waist": 860.0}}


@pytest.fixture
def folder(tmp_path):
    """A record with two women on it."""
    with open_stash(tmp_path) as stash:
        for name, measures in WOMEN.items():
            people.add(stash, name, measures, "women")
    return tmp_path


def run(folder, *words):
    """The command's answer."""
    result = CliRunner().invoke(main, ["--data", str(folder), *words], catch_exceptions=False)
    return result.exit_code, result.output


def altered(folder):
    """A skirt for Odile with both steps, kept."""
    code, said = run(folder, "pattern", "alter", "straight-skirt", *STEPS, "--for", "Odile",
                     "--option", "waist=fitted", "--name", "Ferry skirt", "--json")
    assert code == 0, said
    return json.loads(said)


def hem(pattern) -> float:
    """The hem of the back, mm."""
    back = next(p for p in pattern.pieces if p.name == "back")
    return LineString(next(e.path_mm for e in back.edges if e.name == "hem")).length


def test_several_steps_in_one_command_are_kept_with_their_recipe(folder):
    """Each step is said, its figures agree, and the record knows how it was made."""
    said = altered(folder)

    assert (said["pattern"], said["version"], len(said["steps"])) == ("Ferry skirt", 1, 2)
    for step in said["steps"]:
        assert all(abs(a["one"] - a["other"]) <= a["within"] for a in step["agreed"])
    assert said["recipe"]["base"] == "straight-skirt"
    with open_stash(folder) as stash:
        recipe = stash.patterns.get("Ferry skirt").recipe
    assert recipe is not None and len(recipe.steps) == 2


def test_it_is_drawn_again_for_another_body(folder):
    """Asked for Sunniva, the same alterations are made on her own draft: her hem, 4 cm longer."""
    altered(folder)
    with open_stash(folder) as stash:
        (order,) = orders_for(stash, ["Ferry skirt"], ["Sunniva"])
        plain = altering.before(
            stash, Base(name="straight-skirt", person=stash.people.get("Sunniva")))
        again = order.drafted().pattern
    assert hem(again) == pytest.approx(hem(plain) + 40, abs=0.1)
    assert again.measurements_mm["hip"] == 1120.0 and again.wearer == "Sunniva"


def test_an_alteration_of_an_alteration_goes_on_from_it(folder):
    """The recipe has all three steps, and the base is still the draft."""
    altered(folder)
    code, said = run(folder, "pattern", "alter", "Ferry skirt", "add facing back waist 5cm",
                     "--name", "Ferry skirt", "--json")
    assert code == 0, said
    value = json.loads(said)
    assert value["version"] == 2 and len(value["recipe"]["steps"]) == 3
    assert value["recipe"]["base"] == "straight-skirt"


def test_what_was_altered_is_undone_like_anything_else(folder):
    """After an undo the pattern is not on the list."""
    altered(folder)
    assert run(folder, "undo")[0] == 0
    with open_stash(folder) as stash:
        assert pattern_list.everything(stash) == []


def test_without_a_name_nothing_is_kept_and_a_refusal_keeps_nothing(folder):
    """The pieces are only shown; a step that cannot be made says why, in one sentence."""
    code, said = run(folder, "pattern", "alter", "straight-skirt", STEPS[0], "--for", "Odile")
    assert code == 0 and "Not kept" in said
    code, said = run(folder, "pattern", "alter", "straight-skirt", STEPS[0],
                     "move dart front waist to side", "--for", "Odile", "--name", "X")
    assert code != 0 and "has no dart at its edge waist" in said
    with open_stash(folder) as stash:
        assert pattern_list.everything(stash) == []


def test_a_typed_pattern_is_altered_too(folder):
    """By its corners, and its recipe names the version it was made from."""
    assert run(folder, "pattern", "add", "Smock", "--piece", "front, 70cm x 30cm, on fold")[0] == 0
    code, said = run(folder, "pattern", "alter", "Smock", "cut panel front along fold",
                     "--name", "Open smock", "--json")
    value = json.loads(said)
    assert code == 0 and value["recipe"] == {
        "base": "Smock", "steps": ["cut panel front along fold"], "options": {}, "version": 1}


def test_the_page_makes_the_steps_and_keeps_them(web_client, web_stash):
    """Without scripts: a form a step, before beside after, and a name keeps it.

    Title of the page, and of either drawing for phone and for desk.
    """
    web_stash.people.save(Person(name="Odile", measurements_mm=WOMEN["Odile"], body="women"))
    address = "/alter/?of=straight-skirt&person=Odile&option-waist=fitted"
    step = web_client.get(f"{address}&do=move&move-dart=front|waist+1&move-to=front|side&move-at=9")
    assert step.status_code == 303
    page = web_client.get(step.headers["Location"])
    text = page.get_data(as_text=True)
    assert page.status_code == 200 and text.count("<title>") == 5 and "opens at the side" in text

    action = re.search(r'action="(/alter/keep[^"]*)"', text).group(1).replace("&amp;", "&")
    token = re.search(r'name="token" value="([^"]+)"', text).group(1)
    kept = web_client.post(action, data={"token": token, "name": "Ferry skirt"})
    assert kept.status_code == 303
    recipe = web_stash.patterns.get("Ferry skirt").recipe
    assert recipe.steps == ("move dart front waist 1 to side 90mm",)
    shown = web_client.get("/patterns/own/Ferry skirt").get_data(as_text=True)
    assert "move dart front waist 1 to side 90mm" in shown and "Draw it again for" in shown


def test_the_page_says_what_cannot_be(web_client, web_stash):
    """Edges of two pieces, a step nobody knows, a length that is none."""
    web_stash.people.save(Person(name="Odile", measurements_mm=WOMEN["Odile"], body="women"))
    address = "/alter/?of=straight-skirt&person=Odile&option-waist=fitted"
    for query in ("do=move&move-dart=front|waist+1&move-to=back|side", "do=dance", "do=move",
                  "do=facing&facing-from=front|waist&facing-width=wide", "step=nonsense"):
        page = web_client.get(f"{address}&{query}")
        assert page.status_code == 422 and 'role="alert"' in page.get_data(as_text=True)


def test_what_was_kept_of_her_fit_is_in_what_is_asked_of_the_stash(folder):
    """A sway back found on a toile: the order for the stash holds it as the draft does."""
    assert run(folder, "person", "adjust", "Odile", "straight-skirt", "sway_back=1cm")[0] == 0
    with open_stash(folder) as stash:
        (order,) = orders_for(stash, ["straight-skirt"], ["Odile"])
    assert order.drafted().pattern.options["sway_back"] == 10.0
