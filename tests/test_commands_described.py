"""What the commands answer to a program is described, and real answers are as described.

Each answer is checked against its schema by jsonschema (draft 2020-12), a general library.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from command_shapes import ABOUT, UNITS, Learner, fields, is_refusal
from command_trials import TRIALS, UNTRIED, answers, command_of, commands_with_json
from jsonschema import Draft202012Validator

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def described():
    """The document in the guides."""
    return json.loads((ROOT / "docs" / "commands.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def tried(tmp_path_factory):
    """(line, how it ended, its JSON) of every trial on the demo."""
    return list(answers(tmp_path_factory.mktemp("trials") / "room"))


def test_every_command_that_answers_with_json_is_described(described):
    """A new one is tried in ``tests/bench/command_trials.py``; none is described that is gone."""
    lines = TRIALS.strip().splitlines()

    assert set(described["commands"]) == set(commands_with_json())
    assert {command_of(line) for line in lines} == set(commands_with_json())
    assert not set(UNTRIED) & set(commands_with_json())


def test_every_command_answers_as_described(tried, described):
    """Every trial: what it should, or a refusal with its fact, never anything else."""
    wrong = []
    for line, result, value in tried:
        shape = (described["$defs"]["Refusal"] if is_refusal(value) else
                 {"$defs": described["$defs"], **described["commands"][command_of(line)]["answer"]})
        wrong += [f"{line}: {fault.json_path}: {fault.message[:200]}"
                  for fault in Draft202012Validator(shape).iter_errors(value)]
        assert result.exception is None or isinstance(result.exception, SystemExit), line

    assert wrong == []


def test_each_command_answered_at_least_once(tried):
    """So a description is never one of refusals only."""
    answered = {command_of(line) for line, _, value in tried if not is_refusal(value)}

    assert answered == set(commands_with_json())


def test_every_field_has_its_meaning(tried):
    """``tests/bench/command_fields.csv`` says it; no row is left of a field that is gone."""
    learner = Learner(value for _, _, value in tried if not is_refusal(value))

    assert learner.unknown == set()
    assert all(field.says and field.kind in ("", "fact", "map", "open", "maybe")
               for field in fields().values())


def test_the_description_names_every_unit(described):
    """A field whose name ends in a unit is described with it."""
    missing = []

    def look(schema):
        for name, inner in schema.get("properties", {}).items():
            ends = [end for end in UNITS if end.startswith("_") and name.endswith(end)]
            says = inner.get("description", "" if "$ref" not in inner else str(UNITS))
            if ends and UNITS[max(ends, key=len)] not in says:
                missing.append(name)
            look(inner)
        for key in ("items", "additionalProperties"):
            if isinstance(schema.get(key), dict):
                look(schema[key])

    for schema in (*described["$defs"].values(),
                   *(command["answer"] for command in described["commands"].values())):
        look(schema)

    assert missing == []
    assert described["description"] == ABOUT


def test_each_schema_is_one(described):
    """By the rules of JSON Schema, draft 2020-12."""
    for command in described["commands"].values():
        Draft202012Validator.check_schema(command["answer"])
