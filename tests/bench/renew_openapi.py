"""Writes docs/openapi.json anew from the routes: ``python tests/bench/renew_openapi.py``."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path

from web import create_app


def main() -> None:
    """Write what the app serves."""
    with tempfile.TemporaryDirectory() as room:
        served = create_app(Path(room)).test_client().get("/openapi.json").json
    text = json.dumps(served, ensure_ascii=False, indent=1, sort_keys=True)
    (Path(__file__).parents[2] / "docs" / "openapi.json").write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
