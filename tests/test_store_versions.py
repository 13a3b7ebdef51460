"""A record written by an earlier version opens in this one, and nothing of it is lost.

Sources: tests/golden/store-*.zip and backup-*.zip, each written by the version it is named
for, together with what that version read from it.
"""

import json
import zipfile
from pathlib import Path

import pytest

from stash.ledger.chain import broken
from stash.model.exact import to_plain
from stash.store import open_stash

GOLDEN = Path(__file__).parent / "golden"
STORES = sorted(GOLDEN.glob("store-*.zip"))


def plain(value):
    """As JSON gives it back."""
    return json.loads(json.dumps(to_plain(value)))


def as_known_then(now, was):
    """The value without the fields that came later, as deep as it goes."""
    if isinstance(was, dict) and isinstance(now, dict):
        return {k: as_known_then(v, was[k]) for k, v in now.items() if k in was}
    return now


def findable(stash):
    """The words by which each thing is found."""
    return set(stash.ledger.db.execute("SELECT subject, text FROM findable").fetchall())


@pytest.mark.parametrize("fixture", STORES, ids=lambda path: path.stem)
def test_a_store_of_an_earlier_version_opens_unharmed(fixture, tmp_path):
    """Every event, every state and every photograph is as that version read it."""
    with zipfile.ZipFile(fixture) as packed:
        packed.extractall(tmp_path)
    expected = json.loads((tmp_path / "expected.json").read_text(encoding="utf-8"))
    photos = {p.name: p.read_bytes() for p in (tmp_path / "data" / "photos").rglob("*.jpg")}

    with open_stash(tmp_path / "data") as stash:
        events = list(stash.ledger.events())
        states, words = stash.ledger.cached(), findable(stash)
        assert stash.ledger.replay() == states
        assert findable(stash) == words
        assert list(broken(events, len(events))) == []

    known = expected["events"][0].keys()
    assert [{k: v for k, v in plain(e).items() if k in known} for e in events] == (
        expected["events"])
    assert states.keys() == expected["states"].keys()
    for subject, was in expected["states"].items():
        now = plain(states[subject])
        assert as_known_then(now, was) == was
        assert not any(v for k, v in now.items() if k not in was)  # what came since is empty
    assert photos == {
        p.name: p.read_bytes() for p in (tmp_path / "data" / "photos").rglob("*.jpg")}
    assert [p for p in (tmp_path / "data" / "copies").iterdir() if p.name.startswith("before-")]


def test_there_is_a_fixture_of_each_released_version():
    """The versions named in CHANGELOG.md."""
    import re

    said = (GOLDEN.parent.parent / "CHANGELOG.md").read_text(encoding="utf-8")
    released = re.findall(r"^## \[?v?(\d+\.\d+\.\d+)", said, re.MULTILINE)

    assert {f"store-{version}" for version in released or ["0.1.0"]} <= {p.stem for p in STORES}
