"""The JSON of the commands as JSON Schema (draft 2020-12), learnt from what they answer.

What a field means stands in ``command_fields.csv``: its name, its kind, its meaning. A kind is
``fact`` (what is said, for a program), ``map`` (its keys are data), ``open`` (as kept, of any
shape) or ``maybe`` (not always there); else nothing. A unit is read off the name.
"""

from __future__ import annotations

import csv
import json
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from command_trials import command_of, commands_with_json

from web.described.json_shapes import REFUSAL, Shape

SHORT = 200  # letters: what is shorter is written where it stands
FIELDS_FILE = Path(__file__).with_name("command_fields.csv")
UNITS = {"_mm": "millimetres", "_mm2": "square millimetres", "_gsm": "grams per square metre",
         "_deg": "degrees", "_pct": "percent", "_minor": "hundredths of the currency",
         "_per_m": "hundredths of the currency a metre", "_px": "pixels", "_de00": "CIEDE2000",
         "ms": "milliseconds", "seconds": "seconds", "bytes": "bytes", "ligne": "lignes, 1/40 inch"}
NAMES = {dict: "object", list: "array", str: "string", bool: "boolean", int: "integer",
         float: "number", type(None): "null"}
ABOUT = (
    "What commands print with --json, each as JSON Schema. A length is in millimetres, a mass of "
    "cloth in grams per square metre, money in hundredths of the currency; the unit is in the "
    "name. A command that refuses prints a Refusal and ends with 1.")


@dataclass(frozen=True)
class Field:
    """One row: what it is for, and whether its inside is data."""

    kind: str
    says: str


def fields() -> dict[str, Field]:
    """Every field by its name."""
    with FIELDS_FILE.open(encoding="utf-8", newline="") as rows:
        return {row["name"]: Field(row["kind"], row["says"]) for row in csv.DictReader(rows)}


class Learner:
    """Shapes of values; a field that was nothing here and something elsewhere may be both."""

    def __init__(self, answers: Iterable[Any]) -> None:
        self.fields = fields()
        self.unknown: set[str] = set()
        self._types: dict[str, set[str]] = defaultdict(set)
        for answer in answers:
            self._see("", answer)

    def _see(self, name: str, value: Any) -> None:
        self._types[name].add(NAMES[type(value)])
        if name and not name.endswith("[]") and name not in self.fields:
            self.unknown.add(name)
        for inner_name, inner in self._inside(name, value):
            self._see(inner_name, inner)

    def _inside(self, name: str, value: Any) -> Iterator[tuple[str, Any]]:
        kind = self._kind(name)
        if kind in ("fact", "open"):
            return
        if isinstance(value, dict):
            for key, inner in value.items():
                yield f"{name}[]" if kind == "map" else key, inner
        elif isinstance(value, list):
            for inner in value:
                yield f"{name}[]", inner

    def _kind(self, name: str) -> str:
        field = self.fields.get(name.removesuffix("[]"))
        return field.kind if field and (field.kind != "map" or not name.endswith("[]")) else ""

    def shape(self, name: str, values: list[Any]) -> Shape:
        """The schema that all the values of a field have."""
        types = self._allowed(name, {NAMES[type(value)] for value in values})
        made: Shape = {"type": types[0] if len(types) == 1 else types}
        if says := self._says(name):
            made["description"] = says
        kind = self._kind(name)
        if kind == "open":
            return made
        if kind == "fact" and "object" in types:
            return made | {"required": ["kind"]} if types == ["object"] else made
        if maps := [value for value in values if isinstance(value, dict)]:
            made |= self._object(name, maps, free=kind == "map")
        if items := [item for value in values if isinstance(value, list) for item in value]:
            made["items"] = self.shape(f"{name}[]", items)
        return made

    def _allowed(self, name: str, here: set[str]) -> list[str]:
        everywhere = self._types[name]
        types = here | (everywhere if here <= {"null"} else everywhere & {"null"})
        if "number" in everywhere | types or self._unit(name):
            types = {"number" if each == "integer" else each for each in types}
        return sorted(types)

    def _object(self, name: str, maps: list[dict[str, Any]], *, free: bool) -> Shape:
        if free:
            inner = [value for one in maps for value in one.values()]
            return {"additionalProperties": self.shape(f"{name}[]", inner)} if inner else {}
        keys = dict.fromkeys(key for one in maps for key in one)
        return {
            "properties": {key: self.shape(key, [one[key] for one in maps if key in one])
                           for key in keys},
            "required": sorted(key for key in keys if all(key in one for one in maps)
                               and self._kind(key) != "maybe"),
            "additionalProperties": False}

    def _says(self, name: str) -> str:
        if name.endswith("[]") or name not in self.fields:
            return ""
        unit = self._unit(name)
        return self.fields[name].says + (f", in {unit}" if unit else "") + "."

    def _unit(self, name: str) -> str:
        fit = [end for end in UNITS if name.removesuffix("[]").endswith(end)]
        return UNITS[max(fit, key=len)] if fit else ""


def document(tried: list[tuple[str, Any]]) -> dict[str, Any]:
    """Every command with ``--json``: what it is for, how it is asked, what it answers."""
    answered = [(line, value) for line, value in tried if not is_refusal(value)]
    learner = Learner(value for _, value in answered)
    by_command: dict[str, list[tuple[str, Any]]] = defaultdict(list)
    for line, value in answered:
        by_command[command_of(line)].append((line, value))
    known = commands_with_json()
    shapes = {name: learner.shape("", [value for _, value in rows])
              for name, rows in by_command.items()}
    shared = Shared(shapes.values())
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Lengthwise: the JSON of the commands", "description": ABOUT,
        "commands": {
            name: {"summary": (known[name].help or "").split("\n\n")[0].replace("\n", " "),
                   "examples": [f"lengthwise {line} --json" for line, _ in rows],
                   "answer": shared.referring(shapes[name])}
            for name, rows in sorted(by_command.items())},
        "$defs": {"Refusal": REFUSAL, **shared.defs},
    }


class Shared:
    """Objects that stand in several places: written once, by a name, and referred to."""

    def __init__(self, shapes: Iterable[Shape]) -> None:
        self.defs: dict[str, Shape] = {}
        self._names: dict[str, str] = {}
        self._times: Counter[str] = Counter()
        for shape in shapes:
            self._count(shape)

    def _count(self, shape: Shape) -> None:
        self._times[json.dumps(shape)] += 1
        for inner in (*shape.get("properties", {}).values(), *_inside(shape)):
            self._count(inner)

    def referring(self, shape: Shape, name: str = "") -> Shape:
        """The shape with references in it, or itself as one."""
        text = json.dumps(shape)
        if text in self._names:
            return {"$ref": f"#/$defs/{self._names[text]}"}
        made = dict(shape)
        if "properties" in shape:
            made["properties"] = {
                key: self.referring(inner, key) for key, inner in shape["properties"].items()}
        for key in ("items", "additionalProperties"):
            if isinstance(shape.get(key), dict):
                made[key] = self.referring(shape[key], name)
        if not name or self._times[text] < 2 or len(text) < SHORT:
            return made
        free = (f"{name}{n or ''}" for n in range(1000))
        self._names[text] = next(one for one in free if one not in self.defs)
        self.defs[self._names[text]] = made
        return {"$ref": f"#/$defs/{self._names[text]}"}


def _inside(shape: Shape) -> Iterator[Shape]:
    for key in ("items", "additionalProperties"):
        if isinstance(shape.get(key), dict):
            yield shape[key]


def is_refusal(value: Any) -> bool:
    """Whether a command answered why it did not."""
    return isinstance(value, dict) and set(value) == {"error", "fact", "field"}
