"""A first look at foreign XML that refuses what could exhaust the reader behind it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

from stash.errors import InvalidInput

DEEPEST = 100
MOST_ELEMENTS = 50_000
MOST_WORK = 150_000
"""Straight lines, or what takes as long: far more than any pattern has."""
COMMAND = re.compile(r"([MmLlHhVvCcSsQqTtAaZz])([^MmLlHhVvCcSsQqTtAaZz]*)")
NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
TAKES = {"h": 1, "v": 1, "m": 2, "l": 2, "t": 2, "s": 4, "q": 4, "c": 6, "a": 7, "z": 1}
COSTS = {"a": 30, "c": 8, "s": 8, "q": 8, "t": 8}


@dataclass
class Guard:
    """Counts while expat reads, names resolved by their namespace.

    ``work`` is what drawing each element costs, in straight lines; ``uses`` what it repeats.
    """

    root: Mapping[str, str] | None = None
    depth: int = 0
    elements: int = 0
    work: list[int] = field(default_factory=list)
    parents: list[int] = field(default_factory=list)
    ids: dict[str, int] = field(default_factory=dict)
    children: list[list[int]] = field(default_factory=list)
    uses: dict[int, str] = field(default_factory=dict)

    def start(self, name: str, attributes: dict[str, str]) -> None:
        """An element opens."""
        if self.root is None:
            if _local(name) != "svg":
                raise InvalidInput("not_svg")
            self.root = attributes
        number = self.elements
        attributes = {_local(key): value for key, value in attributes.items()}
        self.work.append(1 + drawing_work(attributes))
        self.elements += 1
        self.children.append([])
        if self.parents:
            self.children[self.parents[-1]].append(number)
        self.parents.append(number)
        if len(self.parents) > DEEPEST:
            raise InvalidInput("svg_nested_too_deep")
        if self.elements > MOST_ELEMENTS:
            raise InvalidInput("svg_too_many_shapes")
        if "id" in attributes:
            self.ids[attributes["id"]] = number
        if _local(name) == "use":
            self.uses[number] = attributes.get("href", "").strip()[1:]

    def end(self, name: str) -> None:
        """An element closes."""
        self.parents.pop()

    def refuse_entity(self, *declared: object) -> None:
        """A document type that declares entities, which could blow up when they are replaced."""
        raise InvalidInput("svg_with_entities")

    def drawn_work(self) -> int:
        """What it costs to draw it once every ``use`` is replaced by what it repeats."""
        sizes: dict[int, int] = {}
        waiting = [0]
        on_the_way: set[int] = set()
        while waiting:
            number = waiting[-1]
            below = list(self.children[number])
            if number in self.uses and self.uses[number] in self.ids:
                below.append(self.ids[self.uses[number]])
            unknown = [n for n in below if n not in sizes]
            if number not in sizes and unknown:
                on_the_way.add(number)
                if any(n in on_the_way for n in unknown):
                    raise InvalidInput("svg_repeats_itself")
                waiting += unknown
                continue
            sizes[number] = self.work[number] + sum(sizes[n] for n in below)
            on_the_way.discard(number)
            waiting.pop()
        return sizes[0]


def drawing_work(attributes: Mapping[str, str]) -> int:
    """What the path or the points of an element cost, in straight lines."""
    work = len(NUMBER.findall(attributes.get("points", ""))) // 2
    for command, numbers in COMMAND.findall(attributes.get("d", "")):
        kind = command.lower()
        times = max(1, len(NUMBER.findall(numbers)) // TAKES[kind])
        work += times * COSTS.get(kind, 1)
    return work


def _local(name: str) -> str:
    """A name without its namespace, whatever prefix the file gives that."""
    return name.rpartition(" ")[2]


def root_attributes(data: bytes) -> Mapping[str, str]:
    """The attributes of the root ``svg`` element of a file that is safe to read in full."""
    guard = Guard()
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartElementHandler = guard.start
    parser.EndElementHandler = guard.end
    parser.EntityDeclHandler = guard.refuse_entity
    parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)
    try:
        parser.Parse(data, True)
    except expat.ExpatError as error:
        raise InvalidInput("svg_garbled", line=error.lineno) from error
    except (ValueError, LookupError) as error:
        raise InvalidInput("not_svg") from error
    if guard.root is None:
        raise InvalidInput("not_svg")
    if guard.drawn_work() > MOST_WORK:
        raise InvalidInput("svg_repeats_too_often")
    return guard.root
