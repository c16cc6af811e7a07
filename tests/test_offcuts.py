"""Off-cuts of one bench as stock of the next: the lines on the pages go into a spec as they stand."""

import html
import re
from functools import cache

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.rows.cutting import Cutting
from generator.manual import Manual
from generator.resources import bundled
from generator.spec.load import read_spec

STOCK = {
    "bar": "stock: [{length: 6000, price: 54}]",
    "ply-12": "stock: [{length: 2440, width: 1220, price: 75}]",
}


@cache
def spec_text() -> str:
    return (bundled("specs") / "demo.yml").read_text(encoding="utf-8")


@cache
def lines(page: str) -> list[str]:
    """What stands to be pasted on a page, as a browser shows it."""
    loaded = read_spec(spec_text(), "demo.yml")
    text = Manual(loaded, compute(solve(loaded))[0], "demo.yml").file(page) or b""
    found = re.findall(r'<pre class="bm-paste"><code>(.*?)</code></pre>', text.decode(), re.S)
    return [html.unescape(block) for block in found]


def plans(text: str) -> Cutting:
    loaded = read_spec(text, "demo.yml")
    return compute(solve(loaded))[0].cutting


def pasted(material: str, block: str) -> str:
    """The demo with these lines under a material's stock, beside what is bought."""
    bought = STOCK[material].removeprefix("stock: [").removesuffix("]")
    listed = "\n".join(f"      {line}" for line in block.splitlines())
    assert spec_text().count(STOCK[material]) == 1
    return spec_text().replace(STOCK[material], f"stock:\n      - {bought}\n{listed}")


def test_the_long_off_cut_of_the_bars_is_offered_and_taken_next_time() -> None:
    block = lines("docs/bar-plan.md")[0]
    assert block == '- {length: 3843, count: 1, on_hand: true, lot: "off-cut of revision B"}'
    next_time = plans(pasted("bar", block))
    used = [bar for bar in next_time.bars if bar.material == "bar"]
    (summary,) = [each for each in next_time.summaries if each.material == "bar"]
    assert [bar.lot for bar in used if bar.on_hand] == ["off-cut of revision B"]
    # 23 940 mm with their kerfs: 4 bars of 6000 and 3843 hold them, and cost 54 less
    assert (summary.to_buy, summary.cost, summary.proved) == (4, 216, True)


def test_the_off_cuts_of_the_sheets_are_offered_and_taken_next_time() -> None:
    block = lines("docs/sheet-plan.md")[0]
    assert all(re.fullmatch(r'- \{length: \d+, width: \d+, count: \d+, on_hand: true, lot: "[^"]+"\}', line)
               for line in block.splitlines())  # fmt: skip
    next_time = plans(pasted("ply-12", block))
    (summary,) = [each for each in next_time.sheet_summaries if each.material == "ply-12"]
    assert summary.to_buy == 2
    assert any(sheet.on_hand for sheet in next_time.sheets if sheet.material == "ply-12")


def test_what_is_shorter_than_the_least_off_cut_is_waste() -> None:
    """Of the angle's bars 34 and 234 mm remain: nothing from 300 mm up, one from 200."""
    assert not [each for each in plans(spec_text()).offcuts if each.material == "angle-15"]
    lower = spec_text().replace("kerf: 4, end_trim: 10", "kerf: 4, end_trim: 10, least_offcut: 200")
    kept = [each for each in plans(lower).offcuts if each.material == "angle-15"]
    assert [(each.length, each.count) for each in kept] == [(234, 1)]


def test_a_sheet_off_cut_counts_lying_either_way() -> None:
    """The long strip of the top's sheet is 2420 x 297, and no other that is kept is smaller."""
    text = spec_text().replace("kerf: 3, edge_trim: 10", "kerf: 3, edge_trim: 10, least_offcut: [297, 2420]")
    kept = [(each.length, each.width) for each in plans(text).offcuts if each.width is not None]
    assert (2420, 297) in kept
    assert all(length == 2420 and width >= 297 for length, width in kept)


def test_off_cuts_in_inches_are_rounded_down_to_what_a_tape_shows() -> None:
    text = (bundled("specs") / "wall-bench.yml").read_text(encoding="utf-8")
    loaded = read_spec(text, "wall-bench.yml")
    figures, _ = compute(solve(loaded))
    made = Manual(loaded, figures, "wall-bench.yml").file("docs/bar-plan.md") or b""
    page = html.unescape(made.decode())
    written = re.findall(r"- \{length: ([^,]+), count", page)
    assert written
    bars = [each for each in figures.cutting.offcuts if each.width is None]
    for size, row in zip(written, bars, strict=True):
        whole, _, part = size.partition(" ")
        top, _, bottom = (part or "0/1").partition("/")
        inches = int(whole) + int(top) / int(bottom)
        assert 0 <= float(row.length) / 25.4 - inches < 1 / figures.spec.inch_fraction + 1e-9
        # the picture and the table have the figure of the line
        assert f"; off-cut {size}." in page
        assert f">{size}</span>](working.md" in page
