"""What the fuzz is let loose on: parsers, the pages, the commands."""

from __future__ import annotations

import importlib
import logging
import random
import re
import traceback
import warnings
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import click
from click.testing import CliRunner

from stash.errors import StashError
from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline, Person
from stash.store import open_stash

Draw = Callable[[random.Random], str]


def where(error: BaseException) -> str:
    """The kind of an error and the line it came from."""
    last = traceback.extract_tb(error.__traceback__)[-1]
    return f"{type(error).__name__} at {Path(last.filename).name}:{last.lineno}: {error}"[:200]


def filled(place: Path) -> tuple[str, ...]:
    """A small stash; the codes of its things."""
    with open_stash(place) as stash:
        cut = stash.cuts.receive(Cut(
            code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code
        notion = Notion(kind=NotionKind.BUTTON, name="Shell", size_mm=11.4)
        bin_ = stash.bins.receive(Bin(code="", notion=notion, amount=20)).code
        stash.people.save(Person(name="Odile", measurements_mm={"hip": 980, "waist": 740}))
        return cut, bin_, *stash.labels.reserve(2)


def events(place: Path) -> int:
    """How many events there are."""
    with open_stash(place, keeping=False) as stash:
        return stash.ledger.newest()


class Parsers:
    """Functions that take what somebody typed."""

    def __init__(self, listed: Mapping[str, Callable[[Any], tuple[Any, ...]]]):
        self.listed = [(name, _found(name), arguments) for name, arguments in listed.items()]

    def attempt(self, random_: random.Random, draw: Draw) -> tuple[str, str]:
        """(what was tried, what must not have happened)."""
        name, parser, arguments = random_.choice(self.listed)
        text = draw(random_)
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                parser(*arguments(text))
        except StashError:
            return name, ""
        except Exception as error:
            return name, f"{where(error)} for {text[:60]!r}"
        return name, ""

    def close(self) -> None:
        """Nothing is held open."""


class Failed(logging.Handler):
    """Remembers where the last page failed."""

    last = ""

    def emit(self, record: logging.LogRecord) -> None:
        """Keep the kind of the error and its line."""
        if record.exc_info and record.exc_info[1]:
            self.last = where(record.exc_info[1])


class Routes:
    """Every page, asked with every field there is."""

    def __init__(self, place: Path, fields: Sequence[str]):
        from web import create_app

        self.failed = Failed()
        logger = logging.getLogger("web")
        logger.propagate = False
        logger.addHandler(self.failed)
        self.place, self.fields = place, fields
        self.codes = filled(place)
        app = create_app(place)
        app.extensions["jobs"].start = lambda job, work: job  # a search would take its time
        self.client = app.test_client()
        self.rules = [(rule, method) for rule in app.url_map.iter_rules()
                      for method in sorted(rule.methods & {"GET", "POST"})]

    def attempt(self, random_: random.Random, draw: Draw) -> tuple[str, str]:
        """(what was tried, what must not have happened)."""
        rule, method = random_.choice(self.rules)

        def value() -> str:
            return random_.choice(self.codes) if random_.random() < 0.3 else draw(random_)

        path = re.sub(r"<[^>]*>", lambda _: value()[:300].replace("\0", "") or "x", rule.rule)
        asked = {name: value() for name in random_.sample(self.fields, random_.randint(0, 8))}
        headers = {"Host": value()[:3000]} if random_.random() < 0.03 else {}
        if any(ord(c) < 32 or ord(c) > 126 for c in headers.get("Host", "")):
            headers = {}
        before = events(self.place)
        name = f"{method} {path[:80]!r} {str(asked)[:160]}"
        try:
            if method == "GET":
                answer = self.client.get(path, query_string=asked, headers=headers)
            else:
                answer = self.client.post(path, data=asked, headers=headers)
            status = answer.status_code
            answer.close()
        except Exception as error:
            return name, where(error)
        if status >= 500 and status != 503:
            return name, f"status {status}: {self.failed.last}"
        if status >= 400 and events(self.place) != before:
            return name, f"status {status}, but something was recorded"
        return name, ""

    def close(self) -> None:
        """Leave the log as it was."""
        logging.getLogger("web").removeHandler(self.failed)
        logging.getLogger("web").propagate = True


class Commands:
    """Every command, with arguments and options of its own that nobody would type."""

    def __init__(self, place: Path, listed: Sequence[str]):
        from fuzz_lists import NOT_TRIED

        from web.command import main

        self.main, self.place = main, place
        self.codes = filled(place)
        self.leaves = [(name, leaf) for name in listed if name not in NOT_TRIED
                       if (leaf := _leaf(main, name.split())) is not None]

    def attempt(self, random_: random.Random, draw: Draw) -> tuple[str, str]:
        """(what was tried, what must not have happened)."""
        name, leaf = random_.choice(self.leaves)
        words = name.split()
        for param in leaf.params:
            words += self._words(param, random_, draw)
        result = CliRunner().invoke(self.main, ["--data", str(self.place), *words])
        shown = f"{name} {words[len(name.split()):]!r}"[:240]
        if result.exception is not None and not isinstance(result.exception, SystemExit):
            return shown, where(result.exception)
        return shown, ""

    def _words(self, param: click.Parameter, random_: random.Random, draw: Draw) -> list[str]:
        def value() -> str:
            if random_.random() < 0.25:
                return random_.choice(self.codes)
            if isinstance(param.type, click.Choice) and random_.random() < 0.8:
                return str(random_.choice(param.type.choices))
            text = draw(random_).replace("\0", "")  # which no system passes on to a command
            return text + "\udcff" if random_.random() < 0.02 else text

        count = param.nargs if param.nargs > 0 else random_.randint(0, 2)
        if param.param_type_name == "argument":
            return [value().lstrip("-") for _ in range(count)]
        if param.name == "seconds":
            return ["--seconds", random_.choice(("0.1", "nan", "inf", "-1", "0", "x"))]
        if random_.random() < 0.75 or not param.opts:
            return []
        if getattr(param, "is_flag", False):
            return [param.opts[-1]]
        return [param.opts[-1], *(value() for _ in range(max(1, count)))]

    def close(self) -> None:
        """Nothing is held open."""


def _found(name: str) -> Callable[..., Any]:
    module, _, path = name.partition(":")
    found: Any = importlib.import_module(module)
    for part in path.split("."):
        found = getattr(found, part)
    return found


def _leaf(group: click.Command, names: Sequence[str]) -> click.Command | None:
    for name in names:
        assert isinstance(group, click.Group)
        found = group.get_command(click.Context(group), name)
        if found is None:
            return None
        group = found
    return group
