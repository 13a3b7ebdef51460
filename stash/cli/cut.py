"""``lengthwise cut``: record cuts of cloth and what happens to them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import click

from stash.cli import cut_weigh
from stash.cli.account import account_json, account_text, remnant_json
from stash.cli.bite_option import parse_bite, parse_pieces
from stash.cli.cloth_options import cloth_from, cloth_options
from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, say, told
from stash.cli.instead import only_one
from stash.cli.open_record import (
    cut_json,
    cut_line,
    event_json,
    history_lines,
    open_record,
    say_cut,
    strayed_json,
    strayed_lays,
)
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Cut, Outline
from stash.model.came import parse_came
from stash.quantity import Quantity, read_cut_size, read_length, read_length_or_nothing
from stash.workroom import cuts, explaining, figures, history, origins
from stash.workroom.cuts import End, LongSide, Use
from stash.workroom.rag import rag_of, said_of

bite_option = click.option(
    "--bite", "bites", multiple=True, metavar="WHERE, SIZE",
    help="What is missing of it, for example “end far, edge left, 40cm x 30cm” or “edge right, "
    "12cm” or “from near 50cm, from right 20cm, 10cm x 10cm”; may be repeated.",
)
end_option = click.option(
    "--end", type=click.Choice([end.value for end in End]), help="From which end it was cut.")
edge_option = click.option(
    "--edge", type=click.Choice([edge.value for edge in LongSide]), default=LongSide.LEFT.value,
    show_default=True, help="From which edge, as one looks from the near end to the far one.")
despite_hold = click.option(
    "--despite-hold", is_flag=True, help="Even if a plan holds this cloth."
)


@click.group()
def command() -> None:
    """Record cuts of cloth, and what is cut off them."""


command.add_command(cut_weigh.weigh)
command.add_command(cut_weigh.roll)


@command.command()
@click.argument("name")
@click.argument("size")
@cloth_options
@click.option("--washed", is_flag=True, help="It has been washed: it will not shrink further.")
@click.option("--place", help="Where it lies: a name, or the code of a place's label.")
@click.option("--acquired", help="When it came, for example 2024-05.")
@click.option("--keep-for", help="What it is kept for.")
@click.option("--code", help="The code of the blank label that was put on it.")
@bite_option
@json_option
@pass_desk
def add(
    desk: Desk, /, name: str, size: str, washed: bool, place: str | None, acquired: str | None,
    keep_for: str | None, code: str | None, bites: tuple[str, ...], as_json: bool, **typed: Any,
) -> None:
    """Record a new cut: its NAME, and its SIZE as length x width ("3.2m x 140cm").

    What you do not say is as the record has the cloth of this NAME; of a new one it is presumed
    by the NAME ("denim"), and marked so.
    """
    cut = Cut(
        code="", cloth=cloth_from(name, typed), outline=Outline.rectangle(*read_cut_size(size)),
        washed=washed, place=place, acquired=parse_came(acquired) if acquired else None,
        keep_for=keep_for,
    )
    with open_record(desk) as stash:
        cut = replace(cut, cloth=cuts.presumed_by_name(stash, cuts.as_known(stash, cut.cloth)))
        say_cut(cuts.receive(stash, cut, code, bites=tuple(map(parse_bite, bites))), as_json)


@command.command()
@click.argument("code")
@json_option
@pass_desk
def show(desk: Desk, code: str, as_json: bool) -> None:
    """Show a cut and its history."""
    with open_record(desk) as stash:
        card, events = cuts.card(stash, code), history.of(stash, code)
        account = explaining.account(stash, code)
        figure = figures.figure_of(stash, card.cut.code)
        shown = origins.of_cut(stash, card.cut)
        coloured = origins.said_of_colour(stash, card.cut)
        seen = origins.colour_known(stash, card.cut)
        past, strayed = history_lines(stash, events), strayed_lays(card)
    value = {
        **cut_json(card), **strayed_json(strayed), "measured": figures.figure_json(figure),
        "figures": origins.figures_json(shown), "colour_known": seen, **account_json(account),
        "history": [event_json(event) for event in events],
    }
    known = map(told, (*strayed, *origins.said_of(shown), *coloured))
    text = "\n".join(
        [cut_line(card), *known, account_text(account), *past])
    say(value, text, as_json=as_json)


@command.command("list")
@click.option("--words", help="Only cloth with these words in its name, fibres, colour or notes.")
@click.option("--place", help="Only what lies in this place.")
@click.option("--gone", is_flag=True, help="Those that are no longer here.")
@json_option
@pass_desk
def list_(desk: Desk, words: str | None, place: str | None, gone: bool, as_json: bool) -> None:
    """List the cuts that are here, newest first."""
    with open_record(desk) as stash:
        cards = cuts.cards(stash, gone=gone, words=words, place=place)
    none = (_("No cut answers to that.") if gone or words or place
            else _("No cut of cloth is on record here yet."))
    text = "\n".join(map(cut_line, cards)) or none
    say({"cuts": [cut_json(card) for card in cards]}, text, as_json=as_json)


@command.command()
@click.argument("code")
@click.argument("length", required=False)
@end_option
@edge_option
@click.option("--strip", metavar="WIDTH", help="Only a strip so wide; all along without LENGTH.")
@click.option("--pieces", metavar="N x LENGTH x WIDTH", help="Equal pieces: “2 x 40cm x 40cm”.")
@click.option("--plan", help="For this plan.")
@despite_hold
@json_option
@pass_desk
def off(
    desk: Desk, code: str, length: str | None, end: str | None, edge: str, strip: str | None,
    pieces: str | None, plan: str | None, despite_hold: bool, as_json: bool,
) -> None:
    """Cut a LENGTH off a cut ("1.2m"), a strip, or equal pieces."""
    only_one(LENGTH=length, pieces=pieces)
    only_one(strip=strip, pieces=pieces)
    use = Use(
        end=End(end) if end else None, edge=LongSide(edge), plan=plan, despite_hold=despite_hold)
    length_mm = read_length(length, Quantity.CUT_LENGTH) if length else None
    with open_record(desk) as stash:
        if pieces:
            done = cuts.cut_pieces(stash, code, parse_pieces(pieces), use=use)
        elif strip:
            width_mm = read_length(strip, Quantity.WIDTH, field="strip")
            done = cuts.cut_strip(stash, code, length_mm, width_mm, use=use)
        elif length_mm:
            done = cuts.cut_off(stash, code, length_mm, use=use)
        else:
            raise InvalidInput("length_to_cut_wanted", field="length")
        say_cut(done, as_json)


@command.command()
@click.argument("code")
@click.argument("length")
@end_option
@despite_hold
@json_option
@pass_desk
def remains(
    desk: Desk, code: str, length: str, end: str | None, despite_hold: bool, as_json: bool,
) -> None:
    """Say how much LENGTH is left of a cut; 0 when it was used up."""
    length_mm = read_length_or_nothing(length, Quantity.CUT_LENGTH)
    with open_record(desk) as stash:
        say_cut(cuts.remains(
            stash, code, length_mm, end=End(end) if end else None, despite_hold=despite_hold),
            as_json)


@command.command()
@click.argument("plan")
@click.option("--code", help="Only this cut; all that the plan holds when none is named.")
@click.option("--only", multiple=True, metavar="PIECE", help="Only this piece was cut so far.")
@click.option("--again", multiple=True, metavar="PIECE",
              help="It was spoiled and cut once more: its first cloth is gone too.")
@click.option("--label", "labels", multiple=True, metavar="CODE",
              help="A blank label stuck on a remnant; may be repeated, the largest first.")
@json_option
@pass_desk
def out(
    desk: Desk, plan: str, code: str | None, only: tuple[str, ...], again: tuple[str, ...],
    labels: tuple[str, ...], as_json: bool,
) -> None:
    """Record that the lay a PLAN holds was cut out; remnants worth keeping get codes."""
    from stash.workroom.cutting import cut_plan  # the lay's libraries load with it

    with open_record(desk) as stash:
        done = cut_plan(stash, plan, code, only=only, again=again, labels=labels)
        cards = {c: cuts.card(stash, c) for one in done for c in (one.code, *one.arrivals)}
        rag = rag_of(stash, done)
    value = {
        "cut_out": [
            {
                **event_json(one), "cut": cut_json(cards[one.code]),
                "remnants": [cut_json(cards[c]) for c in one.arrivals],
            }
            for one in done
        ],
        "remnants": [remnant_json(cards[c]) for one in done for c in one.arrivals],
        "rag": rag.to_json(),
    }
    text = "\n".join([*map(cut_line, cards.values()), *map(told, said_of(rag))])
    say(value, text, as_json=as_json)


@command.command()
@click.argument("code")
@click.argument("size")
@json_option
@pass_desk
def measure(desk: Desk, code: str, size: str, as_json: bool) -> None:
    """Record the true SIZE of a cut that was measured again ("1.8m x 138cm")."""
    length_mm, width_mm = read_cut_size(size)
    with open_record(desk) as stash:
        say_cut(cuts.measure(stash, code, length_mm, width_mm), as_json)


@command.command()
@click.argument("code")
@click.argument("size", required=False)
@click.option("--for-cloth", is_flag=True, help="Its other cuts will shrink as this one did.")
@json_option
@pass_desk
def wash(desk: Desk, code: str, size: str | None, for_cloth: bool, as_json: bool) -> None:
    """Record that a cut was washed, and its SIZE after that.

    Without a SIZE it is reckoned from the shrinkage of its cloth.
    """
    length_mm, width_mm = read_cut_size(size) if size else (None, None)
    with open_record(desk) as stash:
        done = cuts.wash(stash, code, length_mm, width_mm, for_cloth=for_cloth)
    along, across = done.shrank_along_pct, done.shrank_across_pct
    value = {
        **event_json(done.event), "shrank_along_pct": along, "shrank_across_pct": across,
        "cut": cut_json(done.now),
    }
    text = _(
        "{cut}\nIt shrank by {along} % along and {across} % across.",
        cut=cut_line(done.now), along=float(along), across=float(across),
    )
    say(value, text, as_json=as_json)


@command.command()
@click.argument("code")
@click.argument("place")
@json_option
@pass_desk
def move(desk: Desk, code: str, place: str, as_json: bool) -> None:
    """Put a cut in another PLACE: its name, or the code of its label."""
    with open_record(desk) as stash:
        say_cut(cuts.move(stash, code, place), as_json)


@command.command()
@click.argument("code")
@click.option("--given", is_flag=True, help="It was given away.")
@click.option("--thrown", is_flag=True, help="It was thrown away.")
@despite_hold
@json_option
@pass_desk
def gone(
    desk: Desk, code: str, given: bool, thrown: bool, despite_hold: bool, as_json: bool,
) -> None:
    """Record that a cut is no longer here."""
    only_one(given=given, thrown=thrown)
    with open_record(desk) as stash:
        leave = cuts.give_away if given else cuts.throw_away
        say_cut(leave(stash, code, despite_hold=despite_hold), as_json)


@command.command()
@click.argument("code")
@bite_option
@json_option
@pass_desk
def flaw(desk: Desk, code: str, bites: tuple[str, ...], as_json: bool) -> None:
    """Record a flaw: the cloth there is not to be laid on."""
    if not bites:
        raise InvalidInput("not_a_bite", typed="", field="bite")
    with open_record(desk) as stash:
        say_cut(cuts.flaw(stash, code, tuple(map(parse_bite, bites))), as_json)


@command.command()
@click.argument("code")
@json_option
@pass_desk
def square(desk: Desk, code: str, as_json: bool) -> None:
    """Record that its ragged ends and edges were cut away: its largest rectangle is left."""
    with open_record(desk) as stash:
        say_cut(cuts.square_off(stash, code), as_json)


@command.command()
@click.argument("code")
@click.argument("to")
@json_option
@pass_desk
def lend(desk: Desk, code: str, to: str, as_json: bool) -> None:
    """Record that somebody has a cut for a while: TO."""
    with open_record(desk) as stash:
        say_cut(cuts.lend(stash, code, to), as_json)


@command.command()
@click.argument("code")
@json_option
@pass_desk
def back(desk: Desk, code: str, as_json: bool) -> None:
    """Record that a cut that was lent is back."""
    with open_record(desk) as stash:
        say_cut(cuts.back(stash, code), as_json)


@command.command()
@click.argument("code")
@click.option("--price", type=FloatRange(0, 1_000_000), help="For all of it.")
@despite_hold
@json_option
@pass_desk
def sell(
    desk: Desk, code: str, price: float | None, despite_hold: bool, as_json: bool
) -> None:
    """Record that a cut was sold."""
    minor = None if price is None else round(price * 100)
    with open_record(desk) as stash:
        say_cut(cuts.sell(stash, code, minor, despite_hold=despite_hold), as_json)


@command.command()
@click.argument("code")
@click.argument("other")
@click.argument("size")
@json_option
@pass_desk
def join(desk: Desk, code: str, other: str, size: str, as_json: bool) -> None:
    """Record that two cuts were sewn into one of this SIZE; it gets a code of its own."""
    length_mm, width_mm = read_cut_size(size)
    with open_record(desk) as stash:
        say_cut(cuts.join(stash, code, other, length_mm, width_mm), as_json)
