"""The bench and its bays as a phone shows them: narrow, legible, and with the sizes of the wide drawings."""

from itertools import combinations

import pytest

from generator.drawings.canvas import Drawing
from generator.drawings.elevation import draw_views
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.opening import draw_opening, draw_slim_opening
from generator.drawings.slim_views import draw_slim_views
from generator.pages.page import page_ruler
from generator.readings import other_reading, own_reading
from tests.prints.bench import figures_of

NAMES = pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
PHONE = (390 - 2 * 16) * (2.5 / 0.73) / 10
"""Millimetres of paper that a phone of 390 px has between its margins, where letters of 2.5 mm have 10 px.

A capital is 0.73 of the size of its letters.
"""


def slim_of(name: str) -> list[tuple[Drawing, Drawing]]:
    """Each wide drawing with the slim one."""
    figures = figures_of(name)
    ruler = page_ruler(figures)
    bays = [bay.name for bay in figures.layout.bays]
    return [
        *zip(draw_views(figures, ruler), draw_slim_views(figures, ruler), strict=True),
        *((draw_opening(figures, bay, ruler), draw_slim_opening(figures, bay, ruler)) for bay in bays),
    ]


def sizes(drawings: list[Drawing]) -> set[str]:
    return {
        text.text.rpartition(": ")[2]
        for drawing in drawings
        for text in drawing.texts()
        if text.style != "mark" and is_size(text.text)
    }


def is_size(text: str) -> bool:
    return any(map(str.isdigit, text)) and not any(
        word in text for word in ("long", "Opening", "Lengths", "Drawer")
    )


@NAMES
def test_they_are_as_narrow_as_a_phone_and_their_letters_can_be_read(name: str) -> None:
    for _, slim in slim_of(name):
        assert slim.width <= PHONE, slim.id
        assert min(text.height for text in slim.texts()) >= SMALL_TEXT, slim.id


@NAMES
def test_their_texts_neither_collide_nor_leave_the_sheet(name: str) -> None:
    for _, slim in slim_of(name):
        sheet = Extent(0.0, 0.0, slim.width, slim.height)
        for boxes in map(slim.text_boxes, (own_reading, other_reading)):
            for text, box in boxes:
                assert sheet.contains(box), f"{slim.id}: {text} leaves the sheet"
            for (first, a), (second, b) in combinations(boxes, 2):
                assert not a.overlaps(b), f"{slim.id}: {first} collides with {second}"


@NAMES
def test_the_sizes_of_the_wide_views_are_in_one_of_them(name: str) -> None:
    pairs = slim_of(name)
    views, bays = pairs[:3], pairs[3:]
    clear = {bay.name: page_ruler(figures_of(name)).text(bay.width) for bay in figures_of(name).layout.bays}
    zones = {page_ruler(figures_of(name)).text(zone.depth) for zone in figures_of(name).layout.zones}
    missing = sizes([wide for wide, _ in views]) - sizes([slim for _, slim in views])
    # zones are the distance of two depths of the plan; bays of the second zone have openings of their own
    assert missing <= zones | set(clear.values())
    for wide, slim in bays:
        assert sizes([wide]) == sizes([slim]), slim.id
