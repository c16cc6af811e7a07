"""Goods at full size, measured back from the paper: each screw is as long as its line of the hardware list says."""

import json
import re
from fractions import Fraction

import pytest

from generator.calculators.screw_heads import BUTTON_HEADS, HEXAGON_HEADS
from generator.drawings.paper import A4, LETTER, Paper
from generator.drawings.shapes import Circle, Polyline
from generator.figures.rows.hardware import HardwareRow
from generator.prints import goods
from generator.spec.item import Outline, ScrewOutline
from generator.writers.figures_json import figures_json
from generator.writers.svg import to_svg
from tests.paper_reader import pages, strokes
from tests.prints.bench import drawings_of, figures_of, pdf, sheets

BENCHES = ["demo", "starter", "samples/cart", "samples/joiner", "samples/lumber", "samples/row"]
INCH = Fraction(254, 10)
SIZE = re.compile(r"^(#\d+|M\d+|\d+/\d+-\d+|\d+-\d+|[\d.]+) ?x ?([\d /.]+)")


def length_in(text: str) -> tuple[str, float] | None:
    """A size on the list, read by hand: `M8x45` and `4x16` are in mm, `5/16-18 x 1 3/4` and `#6 x 1` in inches."""
    found = SIZE.match(text)
    if not found:
        return None
    size, length = found.groups()
    mm = sum(Fraction(each) for each in length.split()) * (INCH if "-" in size or "#" in size else 1)
    return size, float(mm)


def screws_of(row: HardwareRow) -> list[ScrewOutline]:
    return [look for look in row.looks if isinstance(look, ScrewOutline)]


@pytest.mark.parametrize("name", BENCHES)
def test_each_screw_has_the_length_of_the_list(name: str) -> None:
    rows = json.loads(figures_json(figures_of(name)))["hardware"]
    found = 0
    for row, listed in zip(figures_of(name).hardware, rows, strict=True):
        lots = [lot["size"] for lot in listed["lots"]] or [listed["size"]]
        sizes = [size for lot in lots if (size := length_in(lot))]
        if row.kind.endswith(("screw", "bolt")) and sizes and "," not in listed["size"]:
            drawn = [(each.sold.partition(" ")[0], float(each.length)) for each in screws_of(row)]
            assert drawn == sizes, row.kind
            found += 1
    assert found >= 5


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_a_printed_screw_is_as_long_as_the_real_one(paper: Paper) -> None:
    """Measured on the PDF: a line of dimension 45 mm long below the through screw, 25 and 40 below others."""
    lengths = [
        stroke.along
        for page in pages(pdf("demo", "hardware", paper))
        for stroke in strokes(page)
        if stroke.across < 0.01
    ]
    for wanted in (45, 25, 40, 16, 20, 12):
        assert any(abs(each - wanted) < 0.02 for each in lengths), wanted


def test_a_printer_that_shrinks_is_undone() -> None:
    """Bars that came out as 98 mm along the sheet and 99 mm across it: what is across is drawn larger by as much."""
    bars = (Fraction(98), Fraction(99))
    lengths = [s.along for page in pages(pdf("demo", "hardware", A4, bars)) for s in strokes(page)]
    assert any(abs(each - 45 * 100 / 99) < 0.02 for each in lengths)


def test_the_page_has_the_same_pictures_at_their_own_size() -> None:
    """A unit of the drawing is a millimetre of paper, and the scale bar is 100 of them."""
    for drawing in drawings_of("demo"):
        if drawing.id.startswith("hardware-") and not drawing.id.endswith("slim"):
            assert drawing.width <= 180, "wider than the text on A4: a browser would print it smaller"
            assert f"max-width:calc({to_svg(drawing).width}mm" in to_svg(drawing).inline
            lines = [s.extent() for s in drawing.shapes if getattr(s, "style", "") == "outline"]
            assert any(abs(line.width - 100) < 1e-9 for line in lines)


def test_heads_follow_the_card() -> None:
    """The demo's clip has a button head 4.4 high by its card; lumber's screws have the head of theirs."""
    rows = {row.kind: row for row in figures_of("demo").hardware}
    (button,) = screws_of(rows["end clip screw"])
    assert (button.sort, button.head) == ("button", (14, Fraction("4.4")))
    assert button.head[1] == BUTTON_HEADS["M8"].height
    (cap,) = screws_of(rows["through screw"])
    assert (cap.sort, cap.head) == ("cap", (13, 8))
    (sunk,) = screws_of(rows["drawer box screw"])
    assert (sunk.sort, sunk.head[0]) == ("countersunk", 8)
    assert HEXAGON_HEADS["M8"].width == 13
    strong = {row.kind: row for row in figures_of("samples/lumber").hardware}["structural screw"]
    (screw,) = screws_of(strong)
    assert screw.length == 7 * INCH
    assert screw.wood


def test_fittings_are_drawn_by_their_cards() -> None:
    rows = {row.kind: row for row in figures_of("demo").hardware}
    sizes = {look.size for look in rows["end clip"].looks if isinstance(look, Outline)}
    assert sizes == {(36, 14), (36, 3)}
    (plate, wheel) = rows["caster"].looks
    assert isinstance(plate, Outline)
    assert isinstance(wheel, Outline)
    assert plate.size == (105, 80)
    assert wheel.disc
    assert len(plate.holes) == 4
    # a size that nobody knows is not made up
    assert rows["top bracket"].looks == ()


def test_what_is_larger_than_its_place_says_its_scale() -> None:
    texts = [text.text for sheet in sheets("demo", "hardware", A4) for text in sheet.texts()]
    assert any("1:10" in text for text in texts), "a slide of 500 mm"
    circles = [s for sheet in sheets("demo", "hardware", A4) for s in sheet.shapes if isinstance(s, Circle)]
    assert any(abs(circle.radius * 2 - 20) < 0.01 for circle in circles), "a wheel of 100 mm at 1 : 5"
    shafts = [s for sheet in sheets("demo", "hardware", A4) for s in sheet.shapes if isinstance(s, Polyline)]
    assert shafts
    assert goods.PRINT.slug == "hardware"
