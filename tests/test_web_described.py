"""What the pages answer to a program is described, and real answers are as described.

The document is checked against OpenAPI 3.1 by openapi-spec-validator, each answer against
its schema by jsonschema (draft 2020-12): general libraries, neither of them ours.
"""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from openapi_spec_validator import validate

from stash.model import Cloth, Cut, Outline
from web.described.json_routes import ANSWERS
from web.described.json_shapes import BETWEEN, REFUSAL
from web.jobs import Job

ROOT = Path(__file__).parents[1]
ACCEPT = {"Accept": "application/json"}


def as_described(answer, described: dict, path: str, method: str = "get"):
    """The answer, which is as the document says."""
    response = described["paths"][path][method]["responses"][str(answer.status_code)]
    shape = response["content"]["application/json"]["schema"]
    shape = REFUSAL if "$ref" in shape else shape
    Draft202012Validator(shape).validate(answer.json)
    return answer


@pytest.fixture
def described(web_client):
    """The document that the app serves."""
    return web_client.get("/openapi.json").json


@pytest.fixture
def cut(web_stash):
    """A cut of 3 m."""
    return web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code


def json_routes() -> set[str]:
    """Every endpoint whose function gives back a mapping, which Flask answers as JSON."""
    found = set()
    for path in (ROOT / "web" / "pages").glob("*.py"):
        for view in ast.parse(path.read_text(encoding="utf-8")).body:
            routed = isinstance(view, ast.FunctionDef) and any(
                isinstance(d, ast.Call) and isinstance(d.func, ast.Attribute)
                and d.func.attr in ("get", "post", "route") for d in view.decorator_list)
            if routed and any(_is_json(n.value) for n in ast.walk(view)
                              if isinstance(n, ast.Return) and n.value is not None):
                found.add(f"{path.stem}.{view.name}")
    return found


def _is_json(value: ast.expr) -> bool:
    if isinstance(value, ast.Tuple):
        value = value.elts[0]
    called = value.func if isinstance(value, ast.Call) else None
    name = getattr(called, "attr", getattr(called, "id", ""))
    return isinstance(value, ast.Dict) or name in ("to_json", "jsonify", "error_json", "document")


def test_the_description_is_openapi(described):
    """By the rules of OpenAPI 3.1."""
    validate(described)


def test_every_route_that_answers_with_json_is_described(described):
    """And none is described that is not there."""
    assert json_routes() == {endpoint for endpoint, _method in ANSWERS}
    assert sum(map(len, described["paths"].values())) == len(ANSWERS)


def test_the_description_in_the_guides_is_the_one_served(described):
    """``lengthwise`` need not run for it to be read; ``python tests/bench/renew_openapi.py``."""
    written = json.loads((ROOT / "docs" / "openapi.json").read_text(encoding="utf-8"))

    assert written == described


def test_a_label_answers_as_described(web_client, described, cut):
    """One that is on a cut, and refusals of two kinds."""
    for text, status in ((cut, 200), ("http://elsewhere.example/x", 422), ("", 422)):
        answer = web_client.get("/scan/what", query_string={"text": text})
        assert as_described(answer, described, "/scan/what").status_code == status


def test_a_stock_take_answers_as_described(web_client, described, web_stash, cut):
    """What it saw, and a code that is none."""
    path = "/stock-take/in/{place}/seen"
    for code, status in ((cut, 200), ("nonsense, surely", 422)):
        answer = web_client.post("/stock-take/in/Shelf/seen", data={"code": code}, headers=ACCEPT)
        assert as_described(answer, described, path, "post").status_code == status


def test_a_search_answers_as_described(web_client, described):
    """How it stands, and that it is kept no longer."""
    jobs = web_client.application.extensions["jobs"]
    job = jobs.start(Job(title="a search"), lambda job: "found")
    path = "/waiting/{key}/state"
    for key, status in ((job.key, 200), ("gone", 404)):
        answer = web_client.get(f"/waiting/{key}/state", headers=ACCEPT)
        assert as_described(answer, described, path).status_code == status


def test_a_measurement_answers_as_described(web_client, described, monkeypatch):
    """Between two places of a photograph; its figures are tried elsewhere."""
    from stash.model.measured import Measured, Origin
    from stash.workroom.measuring import Between
    from web.pages import measuring

    job = Job(title="tap", question=measuring.PhotoQuestion("places", b"", None, ""))
    web_client.application.extensions["jobs"].start(job, lambda job: None)
    length = Measured(value=120.0, error=0.6, origin=Origin.PHOTOGRAPHED)
    monkeypatch.setattr(measuring, "between", lambda *a, **k: Between(
        length=length, ends_px=((1, 2), (3, 4))))
    answer = web_client.get(f"/measure/{job.key}/between?one=1,2&other=3,4")

    assert as_described(answer, described, "/measure/{key}/between").status_code == 200
    assert set(answer.json) == set(BETWEEN["properties"])


@pytest.mark.parametrize("asked", ["one=1,2", "one=1,2&other=3,4"])
def test_the_colours_of_a_photograph_answer_as_described(
    web_client, described, monkeypatch, asked
):
    """At one place, or at two that are compared; their figures are tried elsewhere."""
    from stash.eye.colour.photographed import Light, SeenColour
    from web.pages import measuring

    job = Job(title="tap", question=measuring.PhotoQuestion("colours", b"", None, ""))
    web_client.application.extensions["jobs"].start(job, lambda job: None)
    monkeypatch.setattr(measuring, "colours_in", lambda _data, spots: tuple(
        SeenColour(colour="#7a1f2b", lab=(29.0, 38.0, 12.0), error_de00=3.0, light=Light.DAYLIGHT)
        for _ in spots))
    monkeypatch.setattr(measuring, "apart_in", lambda *a: (2.3, 1.0))
    answer = web_client.get(f"/measure/{job.key}/colours?{asked}")

    assert as_described(answer, described, "/measure/{key}/colours").status_code == 200
    assert len(answer.json["colours"]) == asked.count("=")
    assert bool(answer.json["match_said"]) == ("other" in asked)


def test_the_copy_for_a_pocket_answers_as_described(web_client, described, web_stash, cut):
    """The list of pages, and the stash in one line each."""
    assert as_described(web_client.get("/pocket/copy.json"), described, "/pocket/copy.json").json
    lines = as_described(web_client.get("/pocket/stash.json"), described, "/pocket/stash.json")
    assert [one["code"] for one in lines.json["cuts"]] == [cut]


def test_any_refused_page_answers_a_program_with_a_refusal(web_client):
    """A page that is not there, and one that refuses."""
    for answer in (web_client.get("/nowhere", headers=ACCEPT),
                   web_client.get("/waiting/gone/state", headers=ACCEPT)):
        Draft202012Validator(REFUSAL).validate(answer.json)
