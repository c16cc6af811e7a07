"""Brackets under the top: the worked bench's, and those of a card along rails and ends."""

from __future__ import annotations

from itertools import pairwise

from generator.bench.tops.brackets import stretches
from tests.bench.benches import DEMO, changed, part, solved

CARD = changed(
    DEMO,
    ("  slot-nut:", "  angle: {use: bracket 40}\n  slot-nut:"),
    ("top: {material: mdf-18,", "top: {material: mdf-18, bracket: angle,"),
)


def test_the_worked_brackets() -> None:
    """Eight: in the middle of each of four spaces between the upper bars, on both long rails, each with a spare nut."""
    bench = solved()
    assert [(span.low, span.high) for span in stretches(bench.layout)] == [
        (40, 540),
        (580, 980),
        (1020, 1420),
        (1460, 1960),
    ]
    front = [(each.face, each.at, each.spare) for each in bench.brackets if each.bar == "B3"]
    assert front == [("rear", (x, 40), True) for x in (290, 780, 1220, 1710)]
    back = [(each.face, each.at) for each in bench.brackets if each.bar == "B4"]
    assert back == [("front", (x, 860)) for x in (290, 780, 1220, 1710)]
    assert len(bench.brackets) == 8
    assert part(bench, "B3").place.side == "front"


def test_brackets_of_a_card() -> None:
    """Near each corner and at most 400 apart under 18 mm; one in the middle of each end of 820, which is over 600."""
    bench = solved(CARD)
    grid = bench.grid
    assert grid is not None
    card = bench.spec.hardware["angle"]
    for mark, y, face in (("B3", 40, "rear"), ("B4", 860, "front")):
        own = [each for each in bench.brackets if each.bar == mark]
        xs = [each.at[0] for each in own]
        assert {(each.at[1], each.face) for each in own} == {(y, face)}
        assert 60 <= xs[0] <= 120
        assert 60 <= 2000 - xs[-1] <= 120
        assert all(right - left <= 400 for left, right in pairwise(xs))
        # clear of the bars that cross below and of every dog hole above the bracket's leg
        leg = (y, y + card.size[1]) if y == 40 else (y - card.size[1], y)
        rows = [row for row in grid.rows.kept if leg[0] - 10 < row < leg[1] + 10]
        holes = [(column - 10, column + 10) for column in grid.columns.kept if rows]
        bars = [(line, line + 40) for line in (0, *bench.layout.lines, 1960)]
        half = card.size[0] / 2
        assert all(x + half <= low or x - half >= high for x in xs for low, high in (*holes, *bars))
        # one spare nut in each stretch between two bars that has a bracket
        stretch = [sum(line < x for line in bench.layout.lines) for x in xs]
        assert [each.spare for each in own] == [s not in stretch[:n] for n, s in enumerate(stretch)]
    ends = [each for each in bench.brackets if each.bar in ("C11", "C12")]
    assert [(each.bar, each.face, each.at[0], each.spare) for each in ends] == [
        ("C11", "right", 40, True), ("C12", "left", 1960, True),
    ]  # fmt: skip
    assert all(abs(each.at[1] - 450) < 60 for each in ends)
    # no dog hole over the leg of either
    leg, half = card.size[1], card.size[0] / 2
    for each in ends:
        low = each.at[0] if each.face == "right" else each.at[0] - leg
        over = [x for x in grid.columns.kept if low - 10 < x < low + leg + 10]
        assert not [(x, y) for x in over for y in grid.rows.kept if abs(y - each.at[1]) < half + 10]


def test_a_short_end_has_no_bracket_of_its_own() -> None:
    """820 and more than 600; with a depth of 680 the ends are 600 and have none."""
    short = changed(
        CARD,
        ("depth: 900", "depth: 680"),
        ("    depth: share", "    depth: 60"),
        ("overhang: 0", "overhang: 0"),
    )
    assert {each.bar for each in solved(short).brackets} == {"B3", "B4"}


def test_holes_that_lie_beside_the_rails_move_no_bracket() -> None:
    """With 200 to the first row, no hole is over a rail's bracket: they sit as under a plain top, evenly from 100."""
    far = solved(changed(CARD, ("edge: 60", "edge: 200"))).brackets
    plain = solved(
        changed(CARD, (", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", ""))
    ).brackets
    assert far == plain
    assert [each.at[0] for each in far if each.bar == "B3"] == [100, 460, 820, 1180, 1540, 1900]
