"""Part sheets, labels and set-up cards say what the figures say."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest

from generator.bench.solve import solve
from generator.drawings.bar_map import bar_map
from generator.drawings.dimensions import Ruler
from generator.drawings.labels import HEIGHTS, LABEL_WIDTH, Label, machining
from generator.drawings.paper import A4, LETTER, Paper
from generator.drawings.profile import shown
from generator.drawings.shapes import Text
from generator.drawings.sheet import Stamp, room
from generator.figures.cautions import CAUTIONS, cautions_of
from generator.figures.compute import compute
from generator.figures.homes import homes
from generator.pages import part_index
from generator.prints.label_faces import lies_on, middle_of
from generator.prints.labels import in_short
from generator.prints.part_sheets import contents
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.prints.bench import NAMES, figures_of, sheets

PAPER = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
NAMED = pytest.mark.parametrize("name", NAMES)


def written(name: str, slug: str, paper: Paper) -> list[str]:
    return [" ".join(text.text for text in sheet.texts()) for sheet in sheets(name, slug, paper)]


@PAPER
@NAMED
def test_every_part_has_its_sheet_with_all_its_holes(name: str, paper: Paper) -> None:
    pages, ruler = written(name, "part-sheets", paper), Ruler(figures_of(name).spec.units)
    for row in figures_of(name).parts:
        mine = " ".join(
            page for page in pages if page.startswith(f"{row.mark} {row.name}") or f" {row.mark} " in page
        )
        assert row.material in mine
        if row.group != "top":
            for op in row.operations:
                assert ruler.text(op.at[0]) in mine, (row.mark, op)


def test_hands_are_told_apart() -> None:
    pages = written("demo", "part-sheets", A4)
    hands = {row.mark: row.other_hand for row in figures_of("demo").parts if row.other_hand}
    assert hands == {"A1": "A2", "A2": "A1"}
    assert any("A2 is the mirror image of A1" in page for page in pages)


@PAPER
@NAMED
def test_every_piece_has_a_label_that_says_where_it_goes(name: str, paper: Paper) -> None:
    texts = [text.text for sheet in sheets(name, "labels", paper) for text in sheet.texts()]
    steps = homes(figures_of(name))
    for row in figures_of(name).parts:
        for mark in row.marks:
            assert texts.count(mark) == 1
            assert any(f"step {steps[mark].n}" in text for text in texts)


@PAPER
@NAMED
def test_every_label_has_its_whole_size(name: str, paper: Paper) -> None:
    texts = {text.text for sheet in sheets(name, "labels", paper) for text in sheet.texts()}
    ruler = Ruler(figures_of(name).spec.units)
    for row in figures_of(name).parts:
        length, width = ruler.text(row.length), ruler.text(row.width)
        wanted = [f"{length} {ruler.units}"] if row.kind == "profile" else [f"{length} × {width}"]
        assert set(wanted) <= texts or {f"{length} ×", width} <= texts, row.mark


@PAPER
@NAMED
def test_a_sheet_that_goes_to_the_machine_alone_warns(name: str, paper: Paper) -> None:
    """Cautions in full, or by their titles where the sheet is full, with the place that has them in full."""
    for slug in ("set-up-cards", "part-sheets"):
        for page in written(name, slug, paper):
            assert any(f"{level}: " in page for level in ("DANGER", "WARNING", "CAUTION")), page[:60]
    for card in figures_of(name).setups:
        mine = [
            page
            for page in written(name, "set-up-cards", paper)
            if f"Card {card.n} " in page and card.title in page
        ]
        for key in card.cautions:
            assert all(f"{CAUTIONS[key].level.upper()}: {CAUTIONS[key].title}" in page for page in mine), (
                card.key
            )
            assert all(CAUTIONS[key].text in page for page in mine), card.key


def test_cautions_follow_the_acts() -> None:
    rows = {row.mark: row for row in figures_of("demo").parts}
    assert cautions_of(rows["A1"]) == ("saw", "router", "drill", "chips")
    assert cautions_of(rows["FD1"]) == ("kickback", "dust")
    assert cautions_of(rows["TOP"]) == ("kickback", "drill", "dust")
    assert cautions_of(replace(rows["TOP"], mass=30.0)) == ("kickback", "lift", "drill", "dust")
    assert cautions_of(rows["CP1"]) == ("saw", "drill", "chips")


def test_a_label_counts_the_holes_whose_places_it_has_no_room_for() -> None:
    """A1 has holes in three faces, PAN cut-outs for posts in two rows: both say how many of each there are."""
    figures = figures_of("demo")
    rows = {row.mark: row for row in figures.parts}
    assert in_short(rows["A1"], Ruler(), places=False).startswith(
        "3 × Ø8; 2 × counterbore Ø14; 2 × Ø9; 2 × relief"
    )
    pages = written("demo", "labels", A4)
    counted = sum(page.count("3 × Ø8; 2 × counterbore") for page in pages)
    assert counted == sum(row.count for row in rows.values() if row.group == "corner post")
    assert not any("see its sheet" in page for page in pages)


def test_a_label_says_all_or_how_many_and_never_half() -> None:
    places = "F access hole Ø8: " + ", ".join(map(str, range(100, 140)))
    label = Label("A1", "725 mm", "post", (places, "40 × Ø8", "40 places"), "", "", "", "", 40.0)
    assert machining(label, 54.0, 3) == ["40 × Ø8"]
    assert " ".join(machining(label, 54.0, 9)) == places
    assert machining(label, 54.0, 0) == []


#: Where each word of a label points, in the bench: X to the right, Y to the rear, Z up.
POINTS = {
    "left": (-1, 0, 0), "right": (1, 0, 0), "front": (0, -1, 0), "rear": (0, 1, 0),
    "bottom": (0, 0, -1), "top": (0, 0, 1), "down": (0, 0, -1), "up": (0, 0, 1),
}  # fmt: skip


@pytest.mark.parametrize("name", [*NAMES, "samples/joiner", "samples/lumber"])
def test_a_label_turned_as_its_arrows_say_looks_out_of_its_face(name: str) -> None:
    """Right hand: from the label's right edge to its upper edge, out of the face. It lies along its piece."""
    figures = figures_of(name)
    middle = middle_of([piece for row in figures.parts for piece in row.pieces])
    for row in figures.parts:
        for piece in row.pieces:
            stuck = lies_on(row, piece, middle)
            (a, b, c), (d, e, f) = POINTS[stuck.right], POINTS[stuck.up]
            assert (b * f - c * e, c * d - a * f, a * e - b * d) == POINTS[stuck.face], piece.mark
            assert abs(POINTS[stuck.right]["xyz".index(row.along)]) == 1
            across = next(axis for axis in range(3) if POINTS[stuck.up][axis])
            assert stuck.breadth == piece.size[across], piece.mark


@PAPER
@NAMED
def test_a_label_is_no_higher_than_the_face_it_goes_on(name: str, paper: Paper) -> None:
    figures = figures_of(name)
    middle = middle_of([piece for row in figures.parts for piece in row.pieces])
    breadths = {p.mark: lies_on(row, p, middle).breadth for row in figures.parts for p in row.pieces}
    found = set()
    for sheet in sheets(name, "labels", paper):
        boxes = [shape.extent() for shape in sheet.shapes if getattr(shape, "style", "") == "thin"]
        boxes = [box for box in boxes if abs(box.width - LABEL_WIDTH) < 0.01]
        for text in sheet.texts():
            if text.text in breadths and text.style == "mark":
                own = next(box for box in boxes if box.contains(text.extent()))
                assert own.height <= max(float(breadths[text.text]), HEIGHTS[-1]) + 0.01, text.text
                inside = [each for each in sheet.texts() if own.contains(each.extent())]
                assert sum(each.text.removeprefix("on ") in POINTS for each in inside) >= 2, text.text
                found.add(text.text)
    assert found == set(breadths)


CARDS = (
    "bar-stop",
    "fence-ply-12",
    "fence-ply-18",
    "fence-mdf-18",
    "tongue-1",
    "notch-1",
    "notch-2",
    "notch-3",
    "cut-out-1",
    "cut-out-2",
    "tap-1",
    "access-8",
    "counterbore-14",
    "relief",
    "drawer-fence-ply-12",
    "drawer-fence-ply-6",
    "drawer-fence-ply-18",
    "groove-1",
)


def settings(key: str) -> dict[str, list[float]]:
    (card,) = (card for card in figures_of("demo").setups if card.key == key)
    return {setting.name: [float(value) for value in setting.values] for setting in card.settings}


def test_the_cards_of_the_worked_bench() -> None:
    assert tuple(card.key for card in figures_of("demo").setups) == CARDS
    assert [card.n for card in figures_of("demo").setups] == list(range(1, 19))
    tongue = settings("tongue-1")
    assert tongue["Tongue, thickness"] == [8]
    assert tongue["Cutter above the table, first cut on scrap"] == [1.7]
    assert tongue["Cutter above the table, final"] == [2]
    assert tongue["Rabbet, from the edge of the board"] == [10.5]
    assert settings("relief")["Opening in the template, along and across the bar"] == [51, 27]
    assert settings("bar-stop")["Stop to blade: B1, B2, B3, B4"] == [1920]
    assert list(settings("bar-stop").values()) == [[1920], [820], [725], [645], [485]]
    assert settings("counterbore-14")["Counterbore, depth"] == [13.5]


@NAMED
def test_every_act_on_a_part_has_its_card(name: str) -> None:
    """What a part sheet tells to drill, tap, rout or saw has a setting, but for the top and what is bought drilled."""
    figures = figures_of(name)
    for row in figures.parts:
        if row.group in ("top", "caster plate"):
            continue
        cards = [card for card in figures.setups if row.mark in card.marks]
        values = {value for card in cards for setting in card.settings for value in setting.values}
        for op in row.operations:
            placed = op.op not in ("tap", "groove")
            assert not placed or op.at[0] in values, (row.mark, op.op, op.purpose)
            if op.op == "cut-out":
                assert any(set(setting.values) == set(op.at) for card in cards for setting in card.settings)


def test_the_half_step_table_halves() -> None:
    (card,) = (card for card in figures_of("demo").setups if card.half_steps)
    assert all(half == error / 2 for error, half in card.half_steps)
    assert card.half_steps[0][0] == Fraction(6, 10)


@PAPER
@NAMED
def test_every_card_has_a_page_with_boxes(name: str, paper: Paper) -> None:
    pages = written(name, "set-up-cards", paper)
    for card in figures_of(name).setups:
        mine = [page for page in pages if f"Card {card.n} " in page and card.title in page]
        assert mine, card.key
        assert all("Signed" in page and "Measured on the test piece" in page for page in mine)


def test_a_long_bar_is_broken_and_every_hole_is_seen() -> None:
    row = next(row for row in figures_of("demo").parts if row.mark == "B3")
    places = bar_map(row.length, shown(row), 140.0, 0.5)
    assert places.is_broken
    assert places.length <= 140.0 + 1e-9
    for low, high in places.breaks():
        assert not [op for op in row.operations if low < places.x(op.at[0]) < high]
    stations = sorted({op.at[0] for op in row.operations})
    assert [places.x(at) for at in stations] == sorted(places.x(at) for at in stations)


def test_a_short_bar_is_whole() -> None:
    assert not bar_map(
        Fraction(300), [(Fraction(0), Fraction(40)), (Fraction(260), Fraction(300))], 140.0, 0.5
    ).is_broken


@NAMED
def test_the_part_index_names_the_step_that_the_label_names(name: str) -> None:
    figures = figures_of(name)
    texts = [text.text for sheet in sheets(name, "labels", A4) for text in sheet.texts()]
    for row in part_index.context(figures, Ruler(figures.spec.units))["rows"]:
        after = texts[texts.index(row["mark"]) :]
        label = next(text for text in after if text.startswith("step "))
        assert label.startswith(f"step {row['step'].n},"), row["mark"]
        # it moves in that step: a corner post into its end frame, long before that goes to the bench
        moved = {mark for motion in row["step"].motions for mark in motion.marks}
        assert row["mark"] in moved


@pytest.mark.parametrize("name", ["samples/lumber", "samples/joiner", "samples/row"])
def test_no_part_of_timber_or_of_many_faces_runs_over_its_caution(name: str) -> None:
    """On the lower of the two papers, whatever the part has cut into it."""
    figures = compute(solve(read_spec_file(bundled("specs") / f"{name}.yml")))[0]
    ruler = Ruler(figures.spec.units)
    stamp = Stamp("a", "b", "A", "2026-01-01", "c", figures.spec.units)
    drawn = contents(figures, ruler, LETTER, stamp)
    free = room(LETTER)
    for sheet in drawn:
        boxes = [(t.text, t.extent()) for t in sheet.canvas.shapes if isinstance(t, Text)]
        assert [text for text, box in boxes if box.bottom > free.bottom + 0.5] == [], sheet.description
        crossed = [(a, b) for (a, one), (b, two) in combinations(boxes, 2) if one.overlaps(two)]
        assert crossed == [], sheet.description
        first = next(text for text, _ in boxes)
        assert any(first.startswith(mark) for row in figures.parts for mark in row.marks), sheet.description
    # small parts share a sheet
    assert any("; " in sheet.description for sheet in drawn)
