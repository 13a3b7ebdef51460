"""Every text a person reads, gathered for translators: ``python tests/bench/renew_catalogues.py``.

Renews ``stash/sentences/catalogues/LANGUAGE/LC_MESSAGES/lengthwise.po`` with every text of the
house, keeps what is translated, and compiles it. The compiled files are kept in git, so
that an installation needs neither a compiler nor babel's tools.
"""

from __future__ import annotations

import ast
import io
import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from importlib import import_module
from pathlib import Path

import click
from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from stash.cli.words import PLACEHOLDER, paragraphs
from stash.cloth_kinds import weight_words
from stash.draft.altering.edge_terms import EDGE_NAMES
from stash.draft.catalogue import about, draft, garments
from stash.draft.known import OF_BODY
from stash.draft.option import Choice
from stash.errors import StashError
from stash.fibres import fibres
from stash.lay.drawing.lay_svg import _SPREAD_WORDS, BENEATH
from stash.lay.drawing.on_table import Layers
from stash.lay.verdicts import Verdict
from stash.model import NotionKind, Part, Role, Spread
from stash.model.role import DeviceRole
from stash.notions.cautions import KEYS, caution
from stash.notions.thread import stitches, thread_use_name
from stash.pattern.drawn import UNNAMED
from stash.pattern.legend import EDGE_CALLED, EDGES_BESIDE
from stash.pattern.marked import SAID
from stash.pattern.print_pages import RECTANGLES, SEWING_NEXT, STEPS
from stash.pattern.seam_list import LONG_EDGE
from stash.reference import table
from stash.sentences.reader import LANGUAGES
from stash.sentences.translations import DOMAIN, FOLDER, translated
from stash.sentences.wording import WORDING
from stash.sentences.wording.garments import GARMENTS
from stash.spreadsheet.columns import column_keys, heading
from stash.workroom.cut_orders import CUT_ORDERS
from web.command import COMMANDS, main
from web.texts import one_line

Text = str | tuple[str, str]
HOUSE = Path(__file__).parents[2]
WEB = HOUSE / "web"
GONE = ("given away", "discarded", "sold", "joined", "used up")
"""What may have become of a cut or a bin, as the ledger has it."""
HELP = "help of a command"
PLURALS = {"fr": "(n > 1)", "de": "(n != 1)"}


def every_text() -> list[Text]:
    """Each text once: a sentence, or a pair of singular and plural."""
    found: dict[str, Text] = {}
    for text in (
        *WORDING.values(), *_of_pages(), *_of_drawings(), *_of_tables(), *_terms(), *CLICK_SAYS
    ):
        key = text if isinstance(text, str) else text[0]
        if key.strip():
            found.setdefault(key, text)
    return list(found.values())


def _of_pages() -> Iterator[Text]:
    """What stands in ``_()`` and ``ngettext()`` in templates and in Python."""
    keywords = {"_": None, "ngettext": (1, 2)}
    for path in sorted(WEB.rglob("*.html")):
        with path.open("rb") as page:
            for _line, text, _comments, _context in extract("jinja2", page, keywords):
                yield one_line(text) if isinstance(text, str) else (
                    one_line(text[0]), one_line(text[1]))
    for path in _modules():
        with path.open("rb") as module:
            for _line, text, _comments, _context in extract("python", module, keywords):
                yield text if isinstance(text, str) else (text[0], text[1])


def _modules() -> list[Path]:
    """The modules of pages and commands: what they say stands in ``_()``."""
    rooms = (WEB, HOUSE / "stash" / "cli", HOUSE / "labels" / "cli")
    return sorted(path for room in rooms for path in room.rglob("*.py"))


def _of_drawings() -> Iterator[str]:
    """What is written on lays, pieces and sheets: in ``word()``, and in tables beside it."""
    for room in ("stash/lay/drawing", "stash/pattern"):
        for path in sorted((HOUSE / room).glob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                called = isinstance(node, ast.Call) and "word" in (
                    getattr(node.func, "id", ""), getattr(node.func, "attr", ""))
                for given in node.args[:2] if called else ():
                    if isinstance(given, ast.Constant) and isinstance(given.value, str):
                        yield given.value
    yield from (layers.value for layers in Layers)
    yield from (*SAID.values(), *EDGE_CALLED.values(), *EDGES_BESIDE, LONG_EDGE, UNNAMED)
    yield from _SPREAD_WORDS.values()
    yield from (*STEPS, SEWING_NEXT, RECTANGLES, "selvedge", "both selvedges", BENEATH)


def _of_tables() -> Iterator[str]:
    """Words in tables at the top of the pages' modules, which ``_()`` gets by name."""
    for path in _modules():
        source = path.read_text(encoding="utf-8")
        if "import _" not in source:
            continue
        for node in ast.parse(source).body:
            if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None:
                yield from (v for v in _strings(node.value) if _is_said(v))


def _strings(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.Dict):
        for value in node.values:
            yield from _strings(value)
    elif isinstance(node, ast.Tuple | ast.List):
        for value in node.elts:
            yield from _strings(value)
    elif isinstance(node, ast.Call):
        for value in node.args[1:2]:
            yield from _strings(value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value


def _is_said(text: str) -> bool:
    plain = any(c.isalpha() for c in text) and not any(mark in text for mark in "{}<>/%_#=;")
    return plain and text[0].isalpha() and not text.endswith("-")


def _terms() -> Iterator[str]:
    """Words of the trade: measurements, garments, options and their words, fibres, notions."""
    yield from ("{first} and {last}", "{first} or {last}", "linen", *EDGE_NAMES, *GONE)
    yield from (verdict.value for verdict in Verdict)
    yield "common practice, no source"
    yield from GARMENTS.values()
    yield from ("chest", *OF_BODY.values())
    for row in table("measurements"):
        yield from (row["said"], row["how"])
    yield from map(caution, KEYS)
    for name in garments():
        info = about(name)
        yield info.title
        for option in info.options:
            yield option.about
            if isinstance(option, Choice):
                yield from option.words
                yield from (word.replace("-", " ") for word in option.words)
    yield from (stitch.name for stitch in stitches().values())
    yield from map(thread_use_name, stitches())
    for fibre in fibres():
        yield fibre.name
    yield from (order.name for order in CUT_ORDERS)
    yield from (one.word for one in weight_words())
    yield from (heading(key, "en") for key in column_keys())
    yield from sorted(_piece_names())
    for words in (NotionKind, Part, Role, Spread, DeviceRole):
        yield from (word.value for word in words)


def _piece_names() -> set[str]:
    """What the pieces of every draft are called, under each word of each option; and a piece
    that was traced or imported without a name."""
    names = {"piece"}
    body = {"hip": 1040, "waist": 820, "bust": 980, "height": 1680}
    for garment in garments():
        chosen = [{o.name: word} for o in about(garment).options
                  if isinstance(o, Choice) for word in o.words]
        for options in ({}, *chosen):
            # Some words go only with another option; their pieces come with that one.
            with suppress(StashError):
                names |= {piece.name for piece in draft(garment, body, options, None).pieces}
    return names


CLICK_SAYS: tuple[Text, ...] = (
    "Usage:", "Options", "Commands", "Show this message and exit.", "Show the version and exit.",
    "default: {default}", "required", "Error: {message}", "Aborted!", "Missing command.",
    "Try '{command} {option}' for help.", "Missing argument", "Missing option",
    "Invalid value: {message}", "Invalid value for {param_hint}: {message}",
    "No such option {name!r}.", "No such command {name!r}.",
    ("Did you mean {possibility}?", "(Did you mean one of: {possibilities}?)"),
    ("Got unexpected extra argument ({args})", "Got unexpected extra arguments ({args})"),
    ("Option {name!r} requires an argument.", "Option {name!r} requires {nargs} arguments."),
    ("{value!r} is not {choice}.", "{value!r} is not one of {choices}."),
    "{value!r} is not a valid {number_type}.", "{value} is not in the range {range}.",
    "{name} {filename!r} does not exist.", "{name} {filename!r} is a directory.",
    "Choose from:\n\t{choices}", "file", "directory", "path",
)
"""What the library of the command line says itself, as its source has it."""


def every_help() -> list[str]:
    """What commands and their options say of themselves."""
    found = {line: None for _module, line in COMMANDS.values()}
    for command in (main, *(import_module(module).command for module, _line in COMMANDS.values())):
        found |= dict.fromkeys(_helps(command))
    return list(found)


def _helps(command: click.Command) -> Iterator[str]:
    yield from paragraphs(command.help)
    yield from (line for line in (command.epilog or "").split("\n") if line.endswith(":"))
    yield from (p.help for p in command.params if isinstance(p, click.Option) and p.help)
    yield from PLACEHOLDER.findall(" | ".join(_placeholders(command)))
    if isinstance(command, click.Group) and command is not main:
        within = click.Context(command)
        for name in command.list_commands(within):
            yield from _helps(command.get_command(within, name))


def _placeholders(command: click.Command) -> Iterator[str]:
    """What a line of usage calls that which is to be typed: "[OPTIONS]", "NAME=VALUE"."""
    yield command.options_metavar or ""
    yield command.subcommand_metavar if isinstance(command, click.Group) else ""
    within = click.Context(command)
    yield from (p.make_metavar(within) for p in command.params if not getattr(p, "is_flag", False))


def renew(language: str) -> Catalog:
    """The catalogue of a language with every text of today, what was translated kept."""
    path = FOLDER / language / "LC_MESSAGES" / f"{DOMAIN}.po"
    path.parent.mkdir(parents=True, exist_ok=True)
    known = Catalog(locale=language)
    if path.exists():
        known = read_po(io.BytesIO(path.read_bytes()), locale=language)
    fresh = Catalog(locale=language, domain=DOMAIN, project="Lengthwise", charset="utf-8",
                    fuzzy=False, creation_date=known.creation_date,
                    revision_date=known.revision_date)
    # Two forms each: the rules for millions that newer tables add to French serve nobody here.
    fresh._num_plurals, fresh._plural_expr = 2, PLURALS[language]
    typeset = _typeset_in_french if language == "fr" else str
    for text in every_text():
        before = known.get(text if isinstance(text, str) else text[0])
        fresh.add(text, string=_kept(before, typeset) if before else None)
    for line in every_help():
        before = known.get(line)
        if line not in fresh:
            fresh.add(line, string=_kept(before, typeset) if before else None,
                      user_comments=[HELP])
    with path.open("wb") as kept:
        write_po(kept, fresh, width=100, sort_output=True, omit_header=False)
    with path.with_suffix(".mo").open("wb") as compiled:
        write_mo(compiled, fresh)
    return fresh


def _kept(message: Message, typeset: Callable[[str], str]) -> str | tuple[str, ...]:
    if isinstance(message.id, str):
        return typeset(message.string)
    return tuple(map(typeset, message.string[:2]))


def _typeset_in_french(text: str) -> str:
    """U+00A0 before : ; ! ? and within « », and its apostrophe (tests/test_catalogues_set.py)."""
    text = re.sub(r"(?<=\S) (?=[:;!?»](?:[\s).,]|$))", "\u00a0", text)
    return re.sub(r"(?<=\w)'(?=\w)", "’", re.sub("« (?=\\S)", "«\u00a0", text))


def missing(catalogue: Catalog) -> list[Text]:
    """The texts that have no translation yet; help without one is shown in English."""
    return [m.id for m in catalogue if m.id and HELP not in m.user_comments and not (
        m.string if isinstance(m.string, str) else m.string and all(m.string))]


if __name__ == "__main__":
    for one in LANGUAGES[1:]:
        left = missing(renew(one))
        help_left = [line for line in every_help() if translated(line, one) == line]
        print(f"{one}: {len(left)} texts to translate", *map(repr, help_left[:5]))
