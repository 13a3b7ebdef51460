"""``lengthwise person``: record people and their measurements."""

from __future__ import annotations

import click

from stash.cli import written
from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, json_option, pass_desk, reader, say
from stash.cli.open_record import event_json, open_record
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Person
from stash.quantity import Quantity, read_length
from stash.sentences.garments import garment_said
from stash.workroom import people
from stash.workroom.people import BODIES, word


@click.group()
def command() -> None:
    """Record people and their body measurements."""


@command.command()
@click.argument("name")
@click.option(
    "--measure", "measures", multiple=True, metavar="TERM=LENGTH",
    help="For example hip=100cm; may be repeated.",
)
@click.option("--body", type=click.Choice(BODIES), help="The table for what was not measured.")
@click.option("--measured-on", default="", metavar="DAY",
              help="When, for example 2026-11-30; the measurements of another day are kept too.")
@json_option
@pass_desk
def add(
    desk: Desk, name: str, measures: tuple[str, ...], body: str | None, measured_on: str,
    as_json: bool,
) -> None:
    """Record a person, or new measurements of one on record; others stay as they were."""
    measured = dict(map(parse_measure, measures))
    with open_record(desk) as stash:
        event, person = people.add(stash, name, measured, body, measured_on=measured_on)
    say({**event_json(event), "person": person_json(person)}, person_line(person), as_json=as_json)


@command.command()
@click.argument("name")
@click.argument("garment")
@click.argument("adjustments", nargs=-1, required=True, metavar="ADJUSTMENT=LENGTH...")
@json_option
@pass_desk
def adjust(
    desk: Desk, name: str, garment: str, adjustments: tuple[str, ...], as_json: bool
) -> None:
    """Keep what a toile showed: for example trousers centre_back=1.5cm side=1cm."""
    changes = dict(map(parse_option, adjustments))
    with open_record(desk) as stash:
        event, person = people.adjust(stash, name, garment, changes)
    say({**event_json(event), "person": person_json(person)}, person_line(person), as_json=as_json)


@command.command()
@click.argument("name")
@json_option
@pass_desk
def show(desk: Desk, name: str, as_json: bool) -> None:
    """Show a person's measurements."""
    with open_record(desk) as stash:
        person = people.person(stash, name)
    say(person_json(person), person_line(person), as_json=as_json)


@command.command("list")
@json_option
@pass_desk
def list_(desk: Desk, as_json: bool) -> None:
    """List everyone on record."""
    with open_record(desk) as stash:
        everyone = people.everyone(stash)
    text = "\n".join(map(person_line, everyone)) or _("Nobody is on record yet.")
    say({"people": [person_json(person) for person in everyone]}, text, as_json=as_json)


def parse_measure(text: str) -> tuple[str, float]:
    """("hip", 1000.0) from "hip=100cm"; a bare number is centimetres."""
    term, equals, length = text.partition("=")
    key = "_".join(term.replace("_", " ").replace("-", " ").lower().split())
    if not equals or not key:
        raise InvalidInput("not_a_measurement", typed=text.strip()[:40], field="measure")
    return key, read_length(length, Quantity.BODY, field=key)


def person_json(person: Person) -> dict[str, object]:
    """A person with her measurements in millimetres."""
    measures = dict(person.measurements_mm)
    return {
        "name": person.name, "body": person.body, "measures_mm": measures,
        "measurements_mm": measures,  # its name before 0.2
        "measured_on": person.measured_on,
        "earlier": [
            {"measured_on": s.measured_on, "measures_mm": dict(s.measurements_mm)}
            for s in person.earlier
        ],
        "adjustments": {g: dict(a) for g, a in person.adjustments_mm.items()},
    }


def person_line(person: Person) -> str:
    """A person in one line."""
    measures = (
        f"{_(word(key))} {written.tape(value)}"
        for key, value in person.measurements_mm.items()
    )
    fit = (
        f"{garment_said(garment, reader())}, {_(option.about)} {written.tape(changes[option.name])}"
        for garment, changes in person.adjustments_mm.items()
        for option in people.fit_of(garment) if option.name in changes
    )
    return ", ".join([person.name, *measures, *fit])
