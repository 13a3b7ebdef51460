"""The OpenAPI document, made of the routes themselves and of what is said of their answers."""

from __future__ import annotations

import re
from typing import Any

from flask import Flask
from werkzeug.routing import Rule

from web.described.json_routes import ANSWERS, Answer
from web.described.json_shapes import REFUSAL, Shape

ABOUT = (
    "What the pages answer to a program. On this computer everything may be asked; over the "
    "network a paired device only, and records only over https. Any page that is refused answers "
    "with a Refusal when the request says \"Accept: application/json\".")
REFUSED = {"403": "Not from here, or not with this role.", "404": "Not on record.",
           "409": "Something else stands against it.", "422": "Not as it was asked.",
           "429": "Too often.", "503": "The record or a reader cannot be had just now."}


def document(app: Flask, version: str) -> dict[str, Any]:
    """OpenAPI 3.1, as plain values."""
    paths: dict[str, dict[str, Any]] = {}
    for rule in sorted(app.url_map.iter_rules(), key=lambda r: r.rule):
        for method in sorted(rule.methods or ()):
            if (answer := ANSWERS.get((rule.endpoint, method))) is not None:
                paths.setdefault(_path(rule), {})[method.lower()] = _operation(rule, method, answer)
    return {
        "openapi": "3.1.0",
        "info": {"title": "Lengthwise", "version": version, "description": ABOUT},
        "paths": paths,
        "components": {"schemas": {"Refusal": REFUSAL}},
    }


def _path(rule: Rule) -> str:
    return re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule)


def _operation(rule: Rule, method: str, answer: Answer) -> dict[str, Any]:
    in_path = [_parameter(name, "path", "As in the address of the page.")
               for name in sorted(rule.arguments)]
    in_query = [_parameter(name, "query", says) for name, says in answer.asks if method == "GET"]
    operation: dict[str, Any] = {
        "operationId": rule.endpoint.replace(".", "_"), "summary": answer.says,
        "parameters": in_path + in_query,
        "responses": {"200": _response(answer.says, answer.shape)} | {
            status: _response(says, {"$ref": "#/components/schemas/Refusal"})
            for status, says in REFUSED.items()},
    }
    if not answer.always:
        operation["description"] = "With \"Accept: application/json\"; a browser is sent on."
    if method == "POST":
        operation["requestBody"] = {"content": {"application/x-www-form-urlencoded": {"schema": {
            "type": "object",
            "properties": {n: {"type": "string", "description": s} for n, s in answer.asks}}}}}
    return operation


def _parameter(name: str, place: str, says: str) -> Shape:
    return {"name": name, "in": place, "required": True, "description": says,
            "schema": {"type": "string"}}


def _response(says: str, shape: Shape) -> dict[str, Any]:
    return {"description": says, "content": {"application/json": {"schema": shape}}}
