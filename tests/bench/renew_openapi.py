"""Writes docs/openapi.json anew from the routes, docs/commands.json from trials of the commands.

    python tests/bench/renew_openapi.py
"""

from __future__ import annotations

import json
import tempfile
from pathlib import Path

from command_shapes import document
from command_trials import answers

from web import create_app


def main() -> None:
    """Write what the app serves."""
    with tempfile.TemporaryDirectory() as room:
        served = create_app(Path(room)).test_client().get("/openapi.json").json
    _write("openapi.json", served)
    with tempfile.TemporaryDirectory() as room:
        tried = [(line, value) for line, _, value in answers(Path(room))]
    _write("commands.json", document(tried))


def _write(name: str, value: object) -> None:
    text = json.dumps(value, ensure_ascii=False, indent=1, sort_keys=True)
    (Path(__file__).parents[2] / "docs" / name).write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
