"""The picture of a set-up card shows the very figures of its card, and lengths in their proportion."""

from itertools import combinations

import pytest

from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.setup_sketch import MOST_STOPS, draw_sketch
from generator.drawings.shapes import Rect
from generator.figures.rows.setting_out import Setup
from tests.prints.bench import figures_of

BENCHES = ["demo", "wall-bench", "starter", "samples/lumber", "samples/joiner", "samples/assembly"]


def cards_of(name: str) -> list[tuple[Setup, Ruler]]:
    figures = figures_of(name)
    return [(card, Ruler(figures.spec.units, figures.spec.inch_fraction)) for card in figures.setups]


def figures_on(card: Setup, ruler: Ruler) -> set[str]:
    """Every length that the list of the card has, as it is written there."""
    return {
        (ruler.fine if each.fine else ruler.text)(value) for each in card.settings for value in each.values
    }


@pytest.mark.parametrize("name", BENCHES)
def test_a_picture_has_no_figure_that_its_card_has_not(name: str) -> None:
    for card, ruler in cards_of(name):
        if drawing := draw_sketch(card, ruler):
            said = {text.text.removeprefix("Ø") for text in drawing.texts() if text.style != "note"}
            numbers = {each for text in said for each in text.split(", ")} - {"0"}
            assert numbers, card.key
            assert numbers <= figures_on(card, ruler), card.key


@pytest.mark.parametrize("name", BENCHES)
def test_stops_and_fences_are_all_there_and_to_scale(name: str) -> None:
    for card, ruler in cards_of(name):
        drawing = draw_sketch(card, ruler)
        if drawing and card.sketch and card.sketch.sort == "stops":
            stops = sorted({value for each in card.settings for value in each.values})
            shown = {text.text for text in drawing.texts()}
            assert {ruler.text(each) for each in stops[-MOST_STOPS:]} <= shown
            lines = sorted(s.extent().left for s in drawing.shapes if getattr(s, "style", "") == "hidden")
            piece = next(s for s in drawing.shapes if isinstance(s, Rect))
            scale = piece.width / float(stops[-1])
            places = [(left - piece.corner[0]) / scale for left in lines]
            assert places == pytest.approx([float(each) for each in stops[-MOST_STOPS:-1]])


@pytest.mark.parametrize("name", BENCHES)
def test_no_figure_of_a_picture_is_over_another(name: str) -> None:
    for card, ruler in cards_of(name):
        if drawing := draw_sketch(card, ruler):
            sheet = Extent(0.0, 0.0, drawing.width, drawing.height)
            boxes = drawing.text_boxes()
            assert all(sheet.contains(box) for _, box in boxes), card.key
            assert [a for (a, one), (_, two) in combinations(boxes, 2) if one.overlaps(two)] == [], card.key
            assert drawing.width <= 80, "a phone is no wider, and it is beside the settings"


def test_every_card_of_a_bench_of_bars_has_its_picture() -> None:
    assert all(draw_sketch(card, ruler) for card, ruler in cards_of("demo"))
