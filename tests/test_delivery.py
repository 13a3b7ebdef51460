"""Every dependency is locked with its hash and listed with its licence."""

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]


def names(text):
    """Packages as they are compared (PEP 503)."""
    return {re.sub(r"[-_.]+", "-", name).lower() for name in text}


def locked(file):
    """The packages of a lock, each with its hashes."""
    parts = re.split(r"^(?=[A-Za-z0-9])", (ROOT / file).read_text(encoding="utf-8"), flags=re.M)
    found = {}
    for part in parts:
        if match := re.match(r"([A-Za-z0-9._-]+)==", part):
            found[match[1]] = re.findall(r"--hash=sha256:[0-9a-f]{64}", part)
    return found


def wanted(*extras):
    """The packages that pyproject.toml asks for."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lines = [*project["dependencies"],
             *(line for extra in extras for line in project["optional-dependencies"][extra])]
    return names(re.match(r"[A-Za-z0-9._-]+", line)[0] for line in lines)


def test_every_dependency_is_locked_with_hashes():
    """``.ci/wheels lock`` renews both locks."""
    for file, extras in (("requirements.lock", ()), ("requirements-test.lock", ("test",))):
        assert wanted(*extras) - names(locked(file)) == set(), file
        assert all(locked(file).values())


def test_no_lock_names_a_place_of_its_own():
    """It serves wherever packages are fetched from."""
    for file in ("requirements.lock", "requirements-test.lock"):
        assert "://" not in (ROOT / file).read_text(encoding="utf-8")


def test_every_package_is_listed_with_its_licence():
    """In docs/licences.md."""
    rows = re.findall(r"^\| ([\w.-]+) \| (.+) \|$",
                      (ROOT / "docs" / "licences.md").read_text(encoding="utf-8"), re.M)
    listed = {name: licence for name, licence in rows if name != "package"}

    assert names(locked("requirements.lock")) - names(listed) == set()
    assert all(licence.strip() for licence in listed.values())
