"""Several sizes in one drawing: told apart by layer or by style of line, chosen by her measures."""

from __future__ import annotations

import io

import ezdxf
import pytest
from click.testing import CliRunner

from stash.errors import InvalidInput
from stash.model import Outline, Pattern, Person, Piece
from stash.pattern.dxf_writing import write_dxf_sizes
from stash.pattern.importing import read_pattern, sizes_of
from stash.pattern.sizes import (
    SizeInDrawing,
    choose_size,
    parse_size_table,
    size_named,
    with_table,
)
from stash.store import open_stash
from stash.workroom import patterns, people
from web.command import main

GIRTHS = {"38": 880.0, "40": 920.0, "42": 960.0}


def oblong(x: float, wide: float, long: float) -> str:
    """A closed line of an SVG path."""
    return f"M{x} 20h{wide}v{long}h-{wide}z"


def in_layers(*names: str) -> bytes:
    """Front and back in as many sizes as there are names, each on a layer of its own."""
    layers = "".join(
        f'<g id="{name}"><path id="front" d="{oblong(50 - 5 * n, 200 + 10 * n, 600)}"/>'
        f'<path id="back" d="{oblong(320 - 5 * n, 220 + 10 * n, 620)}"/></g>'
        for n, name in enumerate(names)
    )
    return _svg(layers)


def in_dashes() -> bytes:
    """The same in three styles of line, on one layer."""
    return _svg("".join(
        f'<path stroke-dasharray="{dash}" stroke="black" '
        f'd="{oblong(50 - 5 * n, 200 + 10 * n, 600)}"/>'
        f'<path style="stroke:black;stroke-dasharray:{dash}" '
        f'd="{oblong(320 - 5 * n, 220 + 10 * n, 620)}"/>'
        for n, dash in enumerate(("1 0", "4 2", "8 2 2 2"))
    ))


def _svg(inner: str) -> bytes:
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="900mm" '
            f'viewBox="0 0 600 900">{inner}</svg>').encode()


def in_dxf(by: str) -> bytes:
    """The same as a DXF, by layer or by line type."""
    document = ezdxf.new("R2000", setup=True)
    document.header["$INSUNITS"] = 4
    for n, (layer, kind) in enumerate(
        (("SIZE_38", "DASHED"), ("SIZE_40", "DOT"), ("SIZE_42", "DASHDOT"))
    ):
        for x, wide in ((50 - 5 * n, 200 + 10 * n), (320 - 5 * n, 220 + 10 * n)):
            document.modelspace().add_lwpolyline(
                [(x, 0), (x + wide, 0), (x + wide, 600), (x, 600)], close=True,
                dxfattribs={"layer": layer} if by == "layer" else {"linetype": kind},
            )
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode()


@pytest.mark.parametrize(("data", "names"), [
    (in_layers("_38", "_40", "_42"), ["38", "40", "42"]),
    (in_layers("Size-S", "Size-M", "Size-L"), ["S", "M", "L"]),
    (in_dashes(), ["1", "2", "3"]), (in_dxf("layer"), ["38", "40", "42"]),
    (in_dxf("type"), ["1", "2", "3"]),
], ids=["layers", "letters", "dashes", "dxf layers", "dxf types"])
def test_the_sizes_of_a_drawing_are_told_apart(data, names):
    """Unasked it is not guessed; asked for, one size comes with its own front and back."""
    assert [s.name for s in sizes_of(data)] == names
    with pytest.raises(InvalidInput) as refused:
        read_pattern(data)
    assert refused.value.fact.kind == "several_sizes"

    reading = read_pattern(data, size=names[1])
    assert sorted(wide for wide, _ in reading.drawn_mm) == pytest.approx([210, 230])


def test_one_size_is_read_as_before():
    """A drawing of one size has none to choose."""
    data = in_layers("_38")
    assert sizes_of(data) == () and len(read_pattern(data).pieces) == 2


@pytest.mark.parametrize(("text", "name"), [
    ("Size 38", "38"), ("38", "38"), ("Größe 12-14", "12-14"), ("XL", "XL"), ("eu40", "40"),
    ("taille 42 (bust 96 cm)", "42"), ("sleeve", None), ("Mirror", None), ("layer 1", None),
])
def test_a_layer_that_speaks_of_a_size_is_known(text, name):
    """By number or by letters; other names are none."""
    found = size_named(text)
    assert (found.name if found else None) == name


def test_measures_are_read_from_a_layer_and_from_a_table():
    """In centimetres, as bodies are measured, or with their unit."""
    assert size_named("38 (bust 88 cm, hip 94)").measurements_mm == {"bust": 880, "hip": 940}
    assert parse_size_table("38: bust 88, hip 94 cm; 40: bust 92\n42: back waist 41") == (
        SizeInDrawing("38", {"bust": 880, "hip": 940}), SizeInDrawing("40", {"bust": 920}),
        SizeInDrawing("42", {"back_waist": 410}))
    with pytest.raises(InvalidInput):
        parse_size_table("38, bust 88")


@pytest.mark.parametrize(("bust", "size"), [
    (860, "38"), (890, "38"), (891, "40"), (930, "40"), (931, "42"), (1100, "42"),
])
def test_the_smallest_size_that_can_be_let_out_to_her_is_taken(bust, size):
    """A centimetre is let out in the seams (common practice, no source); the largest otherwise."""
    sizes = [SizeInDrawing(name, {"bust": mm}) for name, mm in GIRTHS.items()]
    assert choose_size(sizes, {"bust": bust}).name == size
    assert choose_size(sizes, {"chest": bust}).over_mm == {"bust": bust - GIRTHS[size]}


def test_sizes_that_say_nothing_ask_for_a_table():
    """By name, or by order where the drawing's own are only counted."""
    bare = (SizeInDrawing("1"), SizeInDrawing("2"))
    with pytest.raises(InvalidInput) as refused:
        choose_size(bare, {"bust": 900})
    assert refused.value.fact.kind == "size_table_wanted"
    table = parse_size_table("38: bust 88; 40: bust 92")
    assert choose_size(with_table(bare, table), {"bust": 920}).name == "2"


def test_the_command_takes_the_size_for_a_person(tmp_path):
    """It says which and what she measures beside it; without a person it asks which."""
    (tmp_path / "smock.svg").write_bytes(in_layers("_38", "_40", "_42"))

    def run(*words):
        return CliRunner().invoke(main, ["--data", str(tmp_path / "stash"), *words])

    with open_stash(tmp_path / "stash") as stash:
        people.add(stash, "Odile", {"bust": 925.0, "hip": 1000.0}, "women")
    file = str(tmp_path / "smock.svg")
    refused = run("pattern", "import", file)
    assert refused.exit_code and "38, 40 and 42" in refused.output
    table = "38: bust 88 cm; 40: bust 92 cm; 42: bust 96 cm"
    done = run("pattern", "import", file, "--for", "Odile", "--sizes", table)
    assert done.exit_code == 0 and "Size 40 was taken for Odile" in done.output


def test_the_page_takes_the_size_for_a_person(web_client, web_stash):
    """A table typed beside the file; and a size alone."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"bust": 925.0, "hip": 1000.0}))
    page = web_client.get("/patterns/").get_data(as_text=True)
    token = page.split('name="token" value="')[1].split('"')[0]

    def send(**values):
        return web_client.post("/patterns/import", data={
            "token": token, "file": (io.BytesIO(in_layers("_38", "_40")), "smock.svg"), **values})

    asked = send()
    assert asked.status_code == 422 and "several sizes" in asked.get_data(as_text=True)
    assert send(wearer="Odile", sizes="38: bust 88\n40: bust 92").status_code == 303
    front = next(p for p in patterns.kept(web_stash, "smock").pattern.pieces if p.name == "front")
    assert max(y for _, y in front.outline_mm) == pytest.approx(210)


def graded(side: float) -> Pattern:
    """Two pieces that grow with a size."""
    return Pattern(garment="top", pieces=(
        Piece(name="front", outline_mm=((0, 0), (600, 0), (600, side), (0, side)),
              notches_mm=((300, 0),)),
        Piece(name="sleeve", outline_mm=((0, 0), (400, 30), (400, side), (0, side - 20)),
              quantity=2, mirrored_pair=True)))


SIZES = (("38", graded(240)), ("40", graded(250)), ("42", graded(260)))


def test_several_sizes_go_out_and_come_in_as_a_block_a_piece_and_size():
    """As ASTM D6673 has it: each block says its size, and the size that is asked for comes back."""
    data = write_dxf_sizes(SIZES, title="top")

    assert [size.name for size in sizes_of(data)] == ["38", "40", "42"]
    for name, pattern in SIZES:
        read = read_pattern(data, None, None, name).pieces
        assert [p.name for p in read] == ["front", "sleeve"]
        for piece, true in zip(read, pattern.pieces, strict=True):
            assert Outline(piece.outline_mm).area_mm2 == pytest.approx(
                Outline(true.outline_mm).area_mm2, abs=0.1)
        assert (read[0].notches_mm, read[1].mirrored_pair) == (((300, 0),), True)


def test_the_page_writes_sizes_as_blocks_and_reads_the_one_for_her(web_client, web_stash):
    """Three patterns kept one by one go out in one file; brought in for Odile it is her size."""
    for name, pattern in SIZES:
        patterns.keep(web_stash, f"top {name}", pattern.pieces, "typed")
    where = "/patterns/own/top 38/sizes.dxf"
    saved = web_client.get(where, query_string={
        "size-own": "38", "pattern-0": "top 40", "size-0": "40", "pattern-2": "top 42",
        "size-2": "42"})
    assert [size.name for size in sizes_of(saved.data)] == ["38", "40", "42"]

    web_stash.people.save(Person(name="Odile", measurements_mm={"bust": 925.0}))
    answer = web_client.post("/patterns/import", data={
        "file": (io.BytesIO(saved.data), "all.dxf"), "title": "her top", "wearer": "Odile",
        "sizes": "38: bust 88\n40: bust 92\n42: bust 96"})
    assert answer.status_code == 303
    front, sleeve = patterns.kept(web_stash, "her top").pattern.pieces
    assert max(y for _, y in front.outline_mm) == pytest.approx(250, abs=0.1)
    assert sleeve.mirrored_pair and front.notches_mm == ((300, 0),)


@pytest.mark.parametrize(("typed", "said"), [
    ({"size-own": "38"}, "at least one other"),
    ({"size-own": "38", "pattern-0": "top 40", "size-0": "38"}, "a name of its own"),
    ({"size-own": "38", "pattern-0": "top 40", "size-0": ""}, "a name of its own"),
])
def test_sizes_that_cannot_be_told_apart_are_refused_on_the_page(
    web_client, web_stash, typed, said
):
    """What was typed stays."""
    for name, pattern in SIZES:
        patterns.keep(web_stash, f"top {name}", pattern.pieces, "typed")
    answer = web_client.get("/patterns/own/top 38/sizes.dxf", query_string=typed)
    assert answer.status_code == 422 and said in answer.text
    assert 'value="38"' in answer.text


def test_a_general_reader_finds_each_size_in_blocks_of_its_own():
    """ezdxf, a general library, sees six blocks, each with a text that says the size."""
    document = ezdxf.read(io.StringIO(write_dxf_sizes(SIZES).decode()))
    said = {block.name: [e.dxf.text for e in block.query("TEXT") if "Size" in e.dxf.text]
            for block in document.blocks if not block.is_any_layout and block.name[0] not in "*_"}

    assert said == {f"{piece}_{size}": [f"Size: {size}"]
                    for size in ("38", "40", "42") for piece in ("FRONT", "SLEEVE")}


def test_two_sizes_of_one_name_are_refused(sentence):
    """A cutter could not tell them apart."""
    with pytest.raises(InvalidInput) as refused:
        write_dxf_sizes([SIZES[0], SIZES[0]])
    assert "a name of its own" in sentence(refused.value)
