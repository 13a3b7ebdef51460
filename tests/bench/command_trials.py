"""Every command that answers with JSON, tried on the Heron Loft: one line a trial, in order.

``docs/commands.json`` is made of what they answer (``renew_openapi.py``); a command that has
``--json`` and no line here makes its test fail. Words in braces are filled in: ``{cut0}`` and
``{bin0}`` are the first cut and bin of the loft, ``{room}`` a folder with the files below.
"""

from __future__ import annotations

import contextlib
import json
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
from click.testing import CliRunner, Result
from eye_pours import a_pour
from eye_scene import photograph as tray_photograph
from eye_strips import strip_photo
from trace_photo import Camera, Scene, photograph

from stash.store import open_stash
from stash.workroom.devices import pair
from web.command import main

TRIALS = r"""
demo --no-serve
buttons --front 60cm --diameter 15mm
buttons --front 60cm --diameter 15mm --count 6 --bust 20cm --overlap 4cm
thread --seam 3m --seam 80cm
thread --class 504 --seam 2m --thickness 1mm --width 5mm --stitch-length 2.5mm --waste 20
calibration --sheet --sheets 2 --out {room}/sheet.pdf
calibration --tray --out {room}/tray.pdf
place add "Window chest" --notes "under the sill"
place list
place show "Loft shelf 1"
place show "Window chest"
person add "Wren Sallow" --body women --measure hip=98cm --measured-on 2026-02-01
person adjust "Wren Sallow" trousers side=0.5cm
person show "Wren Sallow"
person show "Odile Farrant"
person list
cut add "Sorrel linen" "2.6m x 140cm" --shrink 4x2 --place "Window chest" --price 14
cut add "Sorrel linen" "1.1m x 140cm" --fibres "100% linen" --mass 180 --shrink 4x2
cut wash {added} "1.05m x 137cm" --for-cloth
cut add "Teasel check" "1.2m x 150cm" --one-way --keep-for "a bag" --bite "flaw, 10cm x 5cm"
cut add "Quay print" "2m x 150cm" --repeat 64mm --colour 9a3b2c --acquired 2026-01-05
cut list
cut list --words linen --gone
cut show {cut0}
cut show {cut1}
cut off {cut0} 20cm
cut off {cut0} --strip 8cm
cut off {cut0} --pieces "2 x 20cm x 20cm"
cut remains {cut2} 2.2m
cut measure {cut4} "2.5m x 147cm"
cut flaw {cut4} --bite "10cm x 5cm"
cut square {cut4}
cut move {cut4} "Cedar chest"
cut lend {cut5} "a neighbour"
cut back {cut5}
cut wash {added}
cut join {cut11} {cut12} "3m x 110cm"
cut sell {cut14} --price 12
cut gone {cut15} --given
cut gone {cut16} --thrown
cut weigh {cut8} --grams 412
cut weigh {cut8} --grams 412 --record --replace
cut weigh {cut9} --grams 300 --swatch "10cm x 10cm 2.3g"
cut weigh {cut10} --grams 500 --mass "180 g/m2"
cut roll {cut8} --turns 14 --outer 9cm --core 4cm
cut roll {cut9} --turns 6 --girth 48cm --board 44cm --record --replace
bin add button "Bramble buttons" 14 --size 15mm --colour "#7a1f2b" --place "Tin row A"
bin add zip "Long zip" 2 --size 60cm --shortenable --code {blank}
bin list
bin list --kind button --gone
bin show {bin0}
bin take {bin0} 2
bin put {bin0} 1
bin count {bin0} 7
bin move {bin0} "Tin row B"
bin gone {bin1} --given
bin weigh {bin2} --grams 37 --per "40 pieces 32g" --need 12
bin weigh {bin2} --grams 37 --per "40 pieces 32g" --record --replace
bin measure {room}/tray.jpg
bin measure {room}/strips.jpg --kind strips
bin measure {room}/floor.jpg --kind strips
colour {room}/floor.jpg --at 900,600
colour {room}/floor.jpg --at 900,600 --at 1000,700
labels --for {cut0} --out {room}/labels.pdf
labels --blank 2 --out {room}/blank.pdf
labels --place "Tin row A" --roll 60mm --out {room}/roll.pdf
scan {room}/label.png
scan {room}/floor.jpg
find linen
find "no such thing at all"
like --words linen --colour 7a1f2b --mass 180
lay --pieces {room}/pieces.json --width 114cm --length 150cm --seconds 0.5
lay --pieces {room}/pieces.json --width 114cm --length 80cm --seconds 0.5
lay --pieces {room}/pieces.json --width 114cm --seconds 0.5
draft tote-bag
draft trousers --for "Odile Farrant" --svg {room}/trousers.svg
draft trousers --list-options
need tote-bag --width 140cm --seconds 0.5
need trousers --for "Odile Farrant" --width 150cm --spread lengthwise --seconds 0.5
fit tote-bag --seconds 1
fit tote-bag --cut {cut41} --seconds 0.5
fit trousers@"Odile Farrant" --seconds 1
far tote-bag --grow width --cut {cut0} --seconds 0.3
pattern add smock --piece "front, 80cm x 60cm, on fold" --piece "sleeve, 50cm x 40cm-30cm, pair"
pattern import {room}/drawn.svg --name "loft apron"
pattern set smock --wearer "Odile Farrant" --cloth woven --weight 120-250 --needs "5 buttons 15 mm"
pattern show smock --svg {room}/smock.svg
pattern list
pattern alter straight-skirt "move dart front waist to side 9cm" --for "Odile Farrant"
pattern table 114cm=2.5m 140cm=2.1m
pattern table 114cm=2.5m 140cm=2.1m --width 120cm
pattern trace {room}/floor.jpg
pattern trace {room}/floor.jpg --name bib --piece "bib front"
pattern trace {room}/floor.jpg --cut {cut3}
plan add spring --garment tote-bag
plan add suits --garment trousers@"Odile Farrant"
plan add summer --garment shirt@"Bram Okell"
plan list
plan show spring
plan choose tote-bag trousers@"Odile Farrant" --seconds 1
plan choose --plan summer --without-buying --seconds 1
plan choose knit-top@"Odile Farrant" --seconds 1
plan hold spring --seconds 1
plan show spring
cut list
cut out spring
plan hold suits --seconds 1
plan show suits
plan release suits
plan hold summer --seconds 1
plan show summer
bin list
plan remove summer
plan made spring
plan show spring
shop tote-bag --widths 90cm,150cm --seconds 1
shop trousers@"Odile Farrant" --all-cloth --price 12 --card {room}/card.html --seconds 1
shop --plan suits --seconds 1
report
report --by fibre --csv {room}/report.csv
settings show
settings set units=inches
settings set units=metric edge_mm=5mm
undo --list
undo
record check
record backup {room}/kept.zip
record verify {room}/kept.zip
record restore {room}/kept.zip --replace
record export {room}/whole.zip --photos --measurements
record import {room}/whole.zip --replace
record template {room}/empty.csv
record table {room}/cuts.csv
record copies --also {room}/second
record copies
record copies --only-here
record repair
keep check
keep copies
keep copy {room}/again.zip
keep bring {room}/again.zip --replace
keep table {room}/again.csv
device pair "Wren's phone" --role look
device list
device revoke "Wren's phone"
cut show AAAAAA
cut add "" 3m
fit no-such-garment
"""
UNTRIED = {"serve": "answers until it is stopped"}
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="600mm" viewBox="0 0 400 600">'
    '<rect id="front" x="20" y="30" width="300" height="500"/></svg>')
LEG = {"name": "leg", "outline_mm": [[0, 0], [900, 20], [900, 250], [300, 330], [0, 240]],
       "quantity": 1, "mirrored_pair": True, "turns_deg": [0, 180]}
BOARD = ((230, -120), (430, -120), (430, 280), (230, 280))


def commands_with_json() -> dict[str, click.Command]:
    """Every command that has ``--json``, by its words."""
    return {name: command for name, command in _leaves(main, "")
            if any(p.name == "as_json" for p in command.params)}


def _leaves(group: click.Group, before: str) -> Iterator[tuple[str, click.Command]]:
    ctx = click.Context(group)
    for name in group.list_commands(ctx):
        found = group.get_command(ctx, name)
        assert found is not None
        words = f"{before} {name}".strip()
        if isinstance(found, click.Group):
            yield from _leaves(found, words)
        else:
            yield words, found


def command_of(line: str) -> str:
    """The words of a line that are its command's name."""
    words = shlex.split(line)
    two = " ".join(words[:2])
    return two if two in commands_with_json() else words[0]


def answers(room: Path, trials: str = TRIALS) -> Iterator[tuple[str, Result, Any]]:
    """(line, how it ended, its JSON) of every trial; ``room`` is an empty folder."""
    made: dict[str, str] = {"room": str(room), "blank": "K7MN4P"}
    _files(room)
    for line in trials.strip().splitlines():
        filled = line.format_map(made)
        result = CliRunner().invoke(
            main, ["--data", str(room / "loft"), *shlex.split(filled), "--json"])
        value = None
        with contextlib.suppress(ValueError):
            value = json.JSONDecoder().raw_decode(result.stdout)[0]
        if line.startswith("demo"):
            made |= {f"cut{n}": code for n, code in enumerate(value["cuts"])}
            made |= {f"bin{n}": code for n, code in enumerate(value["bins"])}
            _label(room / "label.png", value["cuts"][0])
        elif line.startswith("device pair"):
            _pair(room / "loft", value["url"])
        elif line.startswith("cut add") and result.exit_code == 0:
            made["added"] = value["code"]
        yield line, result, value


def _files(room: Path) -> None:
    (room / "second").mkdir(parents=True)
    (room / "drawn.svg").write_text(SVG, encoding="utf-8")
    (room / "pieces.json").write_text(json.dumps({"pieces": [LEG]}), encoding="utf-8")
    scene = Scene(pieces=(BOARD,), density=2.0, window=(-500, -400, 700, 600))
    camera = Camera(target_mm=(120, 100), height_mm=1000, size_px=(1800, 1350))
    (room / "floor.jpg").write_bytes(photograph(scene, camera))
    (room / "strips.jpg").write_bytes(strip_photo(610)[0])
    table, camera = a_pour(3, "flat", count=8, megapixels=3.0)
    (room / "tray.jpg").write_bytes(tray_photograph(table, camera))


def _label(file: Path, code: str) -> None:
    import qrcode

    qrcode.make(f"http://heron-loft.local:5000/c/{code}").save(file)


def _pair(loft: Path, url: str) -> None:
    with open_stash(loft) as stash:
        pair(stash, url.partition("?s=")[2])
