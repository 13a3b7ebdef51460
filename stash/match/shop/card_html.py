"""The shop card as one HTML file that needs no network: styles, drawings and all inside."""

from __future__ import annotations

from dataclasses import replace
from html import escape

from stash.eye.colour.difference import is_colour
from stash.fact import Value, fact
from stash.match.shop.card import (
    Card,
    ClothToBuy,
    NotionToBuy,
    cost_text,
    length_text,
    swatch_said,
    width_text,
)
from stash.notions.buttons import buttonhole_mm
from stash.sentences import Reader, say
from stash.sentences.manner import in_the_manner_of
from stash.sentences.quantities import written

# Long side of a bank card: 85.60 mm (ISO/IEC 7810, ID-1); it makes the drawings true.
BANK_CARD_MM = 85.6
DRAWN_MOST_MM = 60.0

STYLE = """
:root{color-scheme:light dark;--ink:#1d2528;--paper:#fbfaf7;--line:#c9c4b8;--soft:#5b6468;--mm:1mm}
@media(prefers-color-scheme:dark){:root{--ink:#ece8df;--paper:#171b1d;--line:#41494d;--soft:#a9b1b4}}
*{box-sizing:border-box}
body{margin:0;padding:16px;font:17px/1.45 system-ui,sans-serif;color:var(--ink);
background:var(--paper);max-width:46rem;margin-inline:auto}
h1{font-size:1.5rem;margin:0 0 .3rem}h2{font-size:1.15rem;margin:1.6rem 0 .4rem}
p{margin:.3rem 0}.soft{color:var(--soft)}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{padding:.5rem .35rem;white-space:nowrap;border-bottom:1px solid var(--line);text-align:left}
th{font-weight:600;color:var(--soft);font-size:.9rem}
td.buy{font-size:1.3rem;font-weight:700}
ul{list-style:none;padding:0;margin:0}
li{border-bottom:1px solid var(--line);padding:.7rem 0;overflow-wrap:anywhere}
.tick{display:flex;gap:.7rem;align-items:flex-start}
.tick input{width:1.5rem;height:1.5rem;flex:none;margin:.1rem 0 0}
.swatch{display:inline-block;width:4.5rem;height:2.6rem;border:1px solid var(--line);
vertical-align:middle;margin-right:.6rem}
.swatches span{display:inline-flex;align-items:center;margin:.3rem 1rem .3rem 0}
.true{display:flex;align-items:center;gap:.8rem;margin-top:.5rem;flex-wrap:wrap}
.disc{border:1.5px solid var(--ink);border-radius:50%;background:none;flex:none}
.bar{height:12px;background:var(--ink);flex:none}
.ruler{overflow:hidden}
input[type=range]{width:100%;height:2.2rem}
@media print{input[type=range],.screen{display:none}body{padding:0}}
"""
SCRIPT = """
const s=document.getElementById('size');
const set=()=>document.documentElement.style.setProperty('--mm',(s.value/100)+'mm');
try{const k=localStorage.getItem('mm');if(k)s.value=k}catch(e){}
s.addEventListener('input',()=>{set();try{localStorage.setItem('mm',s.value)}catch(e){}});set();
"""


def card_html(card: Card, reader: Reader) -> str:
    """The whole file as text."""
    reader = replace(reader, unbroken=True)
    cloths = "".join(_cloth(cloth, card, reader) for cloth in card.cloths)
    notions = "".join(_notion(notion, reader) for notion in card.notions)
    nothing = "" if card.cloths or card.notions else f"<p>{_said('nothing_to_buy', reader)}</p>"
    drawn = any(_drawn(n) for n in card.notions)
    return (
        f'<!doctype html><html lang="{reader.language}"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{escape(card.title)}</title><style>{STYLE}</style></head><body>"
        f"<h1>{escape(card.title)}</h1>{nothing}{cloths}"
        + (f"<h2>{_said('card_notions', reader)}</h2><ul>{notions}</ul>" if notions else "")
        + (_ruler(reader) if drawn else "")
        + "</body></html>\n"
    )


def _cloth(cloth: ClothToBuy, card: Card, reader: Reader) -> str:
    priced = any(length.cost_minor is not None for length in cloth.lengths)
    columns = ("bolt_width", "length_to_buy", *(("what_it_costs",) if priced else ()))
    heads = "".join(f"<th scope=col>{_said(column, reader)}</th>" for column in columns)
    head = f"<tr>{heads}</tr>"
    rows = "".join(
        f"<tr><td>{escape(width_text(length, reader))}</td>"
        f'<td class="buy">{escape(length_text(length, reader))}</td>'
        + (f"<td>{escape(cost_text(length, card.currency, reader))}</td>" if priced else "")
        + "</tr>"
        for length in cloth.lengths
    )
    notes = "".join(f'<p class="soft">{escape(say(note, reader))}</p>' for note in cloth.notes)
    swatches = "".join(_swatch(name, colour, reader) for name, colour in cloth.colours)
    return (
        f"<h2>{_said('cloth_for', reader, what=cloth.what)}</h2><table>{head}{rows}</table>{notes}"
        + (f'<p class="swatches">{swatches}</p>' if swatches else "")
    )


def _swatch(name: str, colour: str, reader: Reader) -> str:
    if not is_colour(colour):
        return ""
    tone = escape(colour, quote=True)
    said = escape(swatch_said(name, colour, reader))
    return f'<span><i class="swatch" style="background:{tone}"></i>{said}</span>'


def _notion(notion: NotionToBuy, reader: Reader) -> str:
    nearest = " ".join(say(one, reader) for one in notion.nearest)
    near = f'<p class="soft">{escape(nearest)}</p>' if nearest else ""
    swatch = _swatch(
        say(fact("card_to_match"), reader), notion.colour, reader) if notion.colour else ""
    return (
        '<li><label class="tick"><input type="checkbox">'
        f"<span>{escape(say(notion.what, reader))}</span></label>{_true_size(notion, reader)}"
        + (f'<p class="swatches">{swatch}</p>' if swatch else "")
        + f"{near}</li>"
    )


def _drawn(notion: NotionToBuy) -> bool:
    return notion.size_mm is not None and notion.size_mm <= DRAWN_MOST_MM


def _true_size(notion: NotionToBuy, reader: Reader) -> str:
    """A disc as wide as the button, or a bar as wide as the elastic."""
    if notion.size_mm is None or not _drawn(notion):
        return ""
    size = f"calc({notion.size_mm:.2f} * var(--mm))"
    if notion.kind in {"button", "snap"}:
        kind = "button_across" if notion.kind == "button" else "snap_across"
        hole_mm = buttonhole_mm(notion.size_mm)
        beside = _said(kind, reader, diameter_mm=notion.size_mm, buttonhole_mm=hole_mm)
        shape = f'<i class="disc" style="width:{size};height:{size}"></i>'
    else:
        beside = _said("label_so_wide", reader, size=written("_mm", notion.size_mm, reader))
        shape = f'<i class="bar" style="width:{size}"></i>'
    return f'<div class="true">{shape}<span class="soft">{beside}</span></div>'


def _ruler(reader: Reader) -> str:
    card = in_the_manner_of(f"{BANK_CARD_MM} mm", reader)
    return (
        f"<h2>{_said('make_drawings_true', reader)}</h2>"
        f'<p class="soft screen">{_said("lay_a_bank_card", reader, long=card)}</p>'
        f'<div class="ruler"><div class="bar" style="width:calc({BANK_CARD_MM} * var(--mm))">'
        "</div></div>"
        '<input type="range" id="size" min="50" max="180" value="100" '
        f'aria-label="{_said("size_of_drawings", reader)}" class="screen">'
        f"<script>{SCRIPT}</script>"
    )


def _said(kind: str, reader: Reader, **values: Value) -> str:
    """The wording of a fact, fit to stand between tags or in quotation marks."""
    return escape(say(fact(kind, **values), reader), quote=True)
