"""``lengthwise bin measure`` and ``bin weigh``: how many and how much, without counting."""

from __future__ import annotations

from pathlib import Path

import click

from stash.cli import written
from stash.cli.cut_weigh import record_option, replace_option, scale_option, told_useless
from stash.cli.frame import Desk, FloatRange, json_option, pass_desk, reader, say, told
from stash.cli.input import read_file
from stash.cli.instead import only_one
from stash.cli.open_record import event_json, open_record
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.fact import fact
from stash.model import NotionKind
from stash.model.amounts import AMOUNT, read_amount
from stash.model.weights import read_grams, read_known
from stash.quantity import Quantity, read_length, show_length
from stash.units import mm_to_ligne, sold_ligne
from stash.workroom import bins, weighing


@click.command()
@click.argument("photo", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--kind", type=click.Choice(["buttons", "strips"]), default="buttons",
              show_default=True)
@click.option("--ruler", help="What the printed ruler truly measures, if not 150 mm.")
@json_option
@pass_desk
def measure(desk: Desk, /, photo: Path, kind: str, ruler: str | None, as_json: bool) -> None:
    """Count and measure what a PHOTO shows: buttons on the tray, or strips by the sheet."""
    ruler_mm = read_length(ruler, Quantity.RULER, field="ruler") if ruler else None
    (_strips if kind == "strips" else _buttons)(read_file(photo), ruler_mm, as_json)


def _buttons(data: bytes, ruler_mm: float | None, as_json: bool) -> None:
    # OpenCV takes a while to load, and the other commands of this group do without it.
    from stash.workroom.measuring import count_pour, light_said

    pour = count_pour(data, ruler_mm=ruler_mm)
    sizes = [
        {"diameter_mm": round(size.diameter_mm, 2), "error_mm": round(size.error_mm, 2),
         "ligne": round(mm_to_ligne(size.diameter_mm), 1),
         "sold_as_ligne": sold_ligne(size.diameter_mm), "count": size.count}
        for size in pour.sizes
    ]
    items = [
        {"centre_mm": [round(v, 1) for v in item.centre_mm],
         "diameter_mm": round(item.diameter_mm, 2), "error_mm": round(item.error_mm, 2),
         "sure": item.sure}
        for item in pour.items
    ]
    asks = [
        {"why": ask.why, "centre_mm": [round(v, 1) for v in ask.centre_mm],
         "area_mm2": round(ask.area_mm2, 1), "item": ask.item}
        for ask in pour.asks
    ]
    lines = [_("Counted for certain: {count}.", count=pour.count)]
    lines += [_(
        "{count} of {diameter_mm} mm ({sold_as_ligne}L), give or take {error_mm} mm",
        count=s["count"], diameter_mm=round(s["diameter_mm"], 1),
        sold_as_ligne=s["sold_as_ligne"], error_mm=round(s["error_mm"], 1),
    ) for s in sizes]
    if pour.colour:
        lines.append(f"{pour.colour.colour}  {told(light_said(pour.colour))}")
    if asks:
        lines.append(_("To look at, not counted: {number}.", number=len(asks)))
    value = {"count": pour.count, "sizes": sizes, "items": items, "asks": asks,
             "colour": pour.colour and pour.colour.colour,
             "colour_error_de00": pour.colour and pour.colour.error_de00}
    say(value, "\n".join(lines), as_json=as_json)


def _strips(data: bytes, ruler_mm: float | None, as_json: bool) -> None:
    from stash.workroom.measuring import measure_strips

    seen = measure_strips(data, ruler_mm=ruler_mm)
    strips = [
        {"width_mm": round(one.width_mm, 2), "width_error_mm": round(one.width_error_mm, 2),
         "length_mm": round(one.length_mm, 1), "length_error_mm": round(one.length_error_mm, 1),
         "ends_seen": one.ended}
        for one in seen.strips
    ]
    lines = [
        _("{width} mm wide, {length} mm long", width=round(s['width_mm'], 1),
          length=round(s['length_mm']))
        + ("" if s["ends_seen"] else _(", but an end was not seen: lay it clear of the sheet"))
        for s in strips]
    asks = [{"why": "strip?", "at_px": [round(v) for v in line[len(line) // 2]]}
            for line in seen.asked_px]
    if asks:
        lines.append(_("Places that look like a strip and could not be measured: {number}. Lay "
                       "it clear of the joints of the floor, and photograph it again.",
                       number=len(asks)))
    value = {"count": len(strips), "strips": strips, "asks": asks}
    say(value, "\n".join(lines), as_json=as_json)


@click.command()
@click.argument("code")
@click.option("--grams", required=True, help="What the scale shows: 37.")
@click.option("--per", help="What a known amount weighs: “40 pieces 32g”, “3m 27g”.")
@click.option("--per-metre", type=FloatRange(min=0, min_open=True),
              help="Grams to a metre, from a label or a table.")
@click.option("--empty", type=FloatRange(min=0), default=0.0,
              help="What the empty box, bag or spool weighs, in grams.")
@click.option("--need", help="How much is needed: says whether there is surely enough.")
@scale_option
@record_option
@replace_option
@json_option
@pass_desk
def weigh(
    desk: Desk, /, code: str, grams: str, per: str | None, per_metre: float | None, empty: float,
    need: str | None, scale_step: float, record: bool, replace: bool,
    as_json: bool,
) -> None:
    """Reckon how much is in a bin from its weight, with the error; --record keeps it."""
    only_one(per=per, per_metre=per_metre)
    scale = weighing.Scale(step_g=scale_step)
    shown = read_grams(grams)
    with open_record(desk) as stash:
        kind = bins.held(stash, code).notion.kind
        known = _known(kind, per, per_metre, scale_step)
        wanted = read_amount(kind, need, field="need") if need else None
        answer = weighing.weigh_bin(stash, code, shown, scale, known, empty)
        keep = record and _told(kind, answer)
        event = None
        if keep:
            event = weighing.record_amount(stash, code, answer.figure, replace=replace)
    enough = weighing.enough(answer.figure, wanted) if wanted is not None else None
    figure = answer.figure
    value = {
        "amount": round(figure.value, 1) if _told(kind, answer) else None,
        "at_least": round(max(figure.value - figure.error, 0.0), 1),
        "error": round(figure.error, 1), "unit": "pieces" if kind.counted else "mm",
        "because": ". ".join(map(told, answer.because)), "enough": enough,
        "would_help": [told(help_) for help_ in answer.would_help],
        "recorded": event_json(event) if event else None,
    }
    say(value, "\n".join(_lines(kind, answer, enough, wanted is not None)), as_json=as_json)


def _known(
    kind: NotionKind, per: str | None, per_metre: float | None, scale_step: float
) -> weighing.Known:
    if per:
        amount, grams = read_known(kind, per)
        return weighing.Known(amount=amount, grams=grams, step_g=scale_step)
    if per_metre and not kind.counted:
        return weighing.Known(amount=1000.0, grams=per_metre, step_g=None)
    raise InvalidInput("known_weight_wanted", field="per")


def _told(kind: NotionKind, answer: weighing.ByWeight) -> bool:
    """Whether the figure itself is of use; of thread only enough or not."""
    return answer.useful and kind is not NotionKind.THREAD


def _lines(
    kind: NotionKind, answer: weighing.ByWeight, enough: bool | None, asked: bool
) -> list[str]:
    figure = answer.figure
    if kind is NotionKind.THREAD:
        least = max(figure.value - figure.error, 0.0)
        lines = [_(
            "At least {amount} of thread: weight tells enough or not, never how much.",
            amount=show_amount(kind, least),
        )]
    elif answer.useful:
        lines = [_(
            "{amount}, give or take {error}.",
            amount=show_amount(kind, figure.value), error=_wrong(kind, figure.error),
        )]
    else:
        lines = [told_useless(answer)]
    if asked:
        lines.append({True: _("There is surely enough."), False: _("There is surely not enough."),
                      None: _("It cannot be told whether that is enough.")}[enough])
    lines += [f"{told(fact)}." for fact in answer.because]
    if answer.would_help:
        lines.append(_("To know it better: ") + _("; or ").join(map(told, answer.would_help)) + ".")
    return lines


def _wrong(kind: NotionKind, error: float) -> str:
    return show_amount(kind, error) if kind.counted else written.error(error)


def show_amount(kind: NotionKind, amount: float) -> str:
    """A number of pieces, or a length, as this kind is written."""
    if kind.counted:
        return told(fact(f"count_of_{kind.value}", count=round(amount)))
    return show_length(amount, AMOUNT[kind], reader().system)
