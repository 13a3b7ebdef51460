"""Turning "trousers and shirt for Odile" into orders: drafts, people, and patterns of her own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from stash.draft.catalogue import GarmentInfo, about, garments
from stash.draft.chosen import Chosen, by_garment
from stash.errors import InvalidInput, NotFound
from stash.match.order import Order
from stash.model import Pattern, Person, Plan
from stash.notions.machines import finish_on
from stash.pattern.length_line import LENGTH, LENGTHEN
from stash.quantity import Quantity, read_length_or_nothing
from stash.store import Stash
from stash.workroom.altering import drawn_again
from stash.workroom.drafts import is_draft
from stash.workroom.settings import preferences

__all__ = ["Order", "is_draft", "measured_orders", "order", "orders_for", "planned_orders"]

MOST_NAMED = 8


def orders_for(
    stash: Stash,
    wanted: Sequence[str],
    people: Sequence[str] = (),
    options: Mapping[str, object] | None = None,
) -> tuple[Order, ...]:
    """Garments and people in the order named; ``shirt@Bram`` says for whom one garment is.

    As many people as garments pair in order; otherwise every garment is for every
    person. With nobody named, the one person on record is meant. Options belong to a
    garment: ``{"shirt.length": ...}`` (see ``stash.draft.chosen``).
    """
    if not wanted:
        raise InvalidInput("name_a_garment", field="garment")
    names = [text.partition("@")[0].strip() for text in wanted]
    longer_by, drafted = _lengthening(names, options or {})
    chosen = by_garment([n for n in names if is_draft(n)], drafted)
    orders = []
    paired = len(people) == len(wanted)
    for place, text in enumerate(wanted):
        name, _, whose = text.partition("@")
        named = [whose] if whose else [people[place]] if paired else people
        for person in _people(stash, name.strip(), named):
            asked = _options_of(chosen, name.strip()) or longer_by.get(name.strip(), {})
            orders.append(order(stash, name.strip(), person, asked))
    return tuple(orders)


def order(
    stash: Stash, name: str, person: Person | None, options: Mapping[str, object]
) -> Order:
    """One garment for one body, from a draft or from a pattern of her own."""
    if not is_draft(name):
        own = _own_pattern(stash, name)
        if person is not None and person.name != own.wearer:
            own = drawn_again(own, person)
        return Order(
            garment=own.garment, person=person.name if person else "", pattern=own,
            options={name: _mm(options[name]) for name in OF_LINES if options.get(name)})
    info = about(name)
    fit = person.adjustments_mm.get(info.name, {}) if person else {}
    return Order(
        garment=info.name,
        person=person.name if person else "",
        measurements_mm=person.measurements_mm if person else {},
        body=person.body if person else None,
        options=_finished(stash, info, {**fit, **_own_options(info.name, options)}),
    )


def _finished(
    stash: Stash, info: GarmentInfo, options: Mapping[str, object]
) -> Mapping[str, object]:
    """The options with raw edges finished as her machines do, where she did not say how."""
    machines = preferences(stash).machines
    takes = any(option.name == "finish" for option in info.options)
    if not machines or not takes or options.get("finish") is not None:
        return options
    return {**options, "finish": finish_on(machines)}


def planned_orders(stash: Stash, plan: Plan) -> tuple[Order, ...]:
    """The garments of a plan."""
    return tuple(
        order(stash, g.garment, stash.people.get(g.person) if g.person else None, g.options)
        for g in plan.garments
    )


def measured_orders(
    stash: Stash, garments_wanted: Sequence[str], people: Sequence[str],
    measured_mm: Mapping[str, float], body: str | None, options: Mapping[str, object],
) -> tuple[Order, ...]:
    """Garments for people on record, or straight from measurements, exactly as ``draft`` takes.

    What is measured here wins over what is on record.
    """
    if people or not (measured_mm or body):
        return tuple(
            replace(o, measurements_mm={**o.measurements_mm, **measured_mm}, body=body or o.body)
            for o in orders_for(stash, garments_wanted, people, options)
        )
    chosen = by_garment(garments_wanted, options)
    return tuple(
        Order(garment=info.name, measurements_mm=measured_mm, body=body,
              options=chosen[info.name])
        for info in map(about, garments_wanted)
    )


OF_LINES = (LENGTHEN, LENGTH)


def _lengthening(
    names: Sequence[str], options: Mapping[str, object]
) -> tuple[dict[str, dict[str, object]], dict[str, object]]:
    """How much longer each pattern of her own is to be, or how long, and the drafts' options.

    A length said of no garment in particular is meant for the drafts, where there are any.
    """
    own = [n for n in names if not is_draft(n)]
    takes = OF_LINES if len(own) == len(names) else (LENGTHEN,)
    longer_by: dict[str, dict[str, object]] = {}
    rest: dict[str, object] = {}
    for key, value in options.items():
        whose, dot, option = key.rpartition(".")
        if own and (option in OF_LINES if dot and whose in own else not dot and option in takes):
            for n in [whose] if dot else own:
                longer_by.setdefault(n, {})[option] = value
        else:
            rest[key] = value
    return longer_by, rest


def _mm(value: object) -> float:
    """Millimetres, or text with a unit and perhaps a minus sign."""
    if isinstance(value, int | float):
        return float(value)
    typed = str(value).strip()
    sign = -1.0 if typed[:1] in ("-", "−") else 1.0
    return sign * read_length_or_nothing(
        typed.lstrip("-−+ "), Quantity.PATTERN, field=LENGTHEN
    )


def _own_options(garment: str, options: Mapping[str, object]) -> dict[str, object]:
    """What this garment takes of the options."""
    known = {option.name for option in about(garment).options}
    return {key: value for key, value in options.items() if key in known}


def _own_pattern(stash: Stash, name: str) -> Pattern:
    try:
        return stash.patterns.get(name)
    except NotFound:
        own = [kept.name for kept in stash.patterns.all()]
        raise NotFound("no_draft_or_pattern", name=name, known=(*garments(), *own)) from None


def _people(stash: Stash, name: str, named: Sequence[str]) -> list[Person | None]:
    if named:
        return [stash.people.get(who) for who in named]
    if not is_draft(name) or not about(name).measurements:
        return [None]
    known = stash.people.all()
    if len(known) == 1:
        return list(known)
    if not known:
        raise InvalidInput("nobody_on_record", field="for")
    people = tuple(person.name for person in known[:MOST_NAMED])
    raise InvalidInput("say_for_whom", people=people, field="for")


def _options_of(chosen: Chosen, name: str) -> dict[str, object]:
    return chosen[about(name).name] if is_draft(name) else {}
