"""The room: free floor by side against what opens there, worked by hand."""

from __future__ import annotations

import pytest

from generator.bench.model import Bench
from generator.drawings.room import draw_room
from generator.figures.checks.room import room_checks
from generator.figures.compute import compute
from generator.figures.room import room_sides
from generator.pages.page import ruler_for
from tests.bench.benches import DEMO, changed, solved

#: The demo with doors at the rear that turn to half a circle, and pulls of 32 on its drawers.
WITH_DOORS = changed(
    DEMO,
    ("name: B1, width: share,", "name: B1, width: share, door: {hinge: pair},"),
    ("name: B2, width: share,", "name: B2, width: share, door: {hinge: right},"),
    ("  caster: {kind", "  bow: {use: pull 128, projection: 32}\n  caster: {kind"),
    ("totes:\n", "  butt: {use: butt hinge 60 x 34, opening: 180}\ntotes:\n"),
    ("groove: 6}", "groove: 6, pull: bow}"),
)


def bench(room: str, text: str = WITH_DOORS) -> Bench:
    return solved(f"{text}room: {{{room}}}\n")


def needed(bench: Bench) -> dict[str, float]:
    return {row.side: float(row.needed) for row in room_sides(bench)}


def test_each_side_needs_what_opens_there() -> None:
    # bay B2 is 940 wide: its door is 934, and open it needs 5 more
    assert needed(bench("front: 2000, rear: 2000, left: 2000, right: 2000")) == pytest.approx(
        # drawers come out by 500, their pull is 32 before them, and a person stands there
        {"front": 500 + 32 + 600, "rear": 934 + 5, "left": 425.5, "right": 894.0}
    )


def test_a_door_at_the_end_turns_beyond_it_by_its_own_width() -> None:
    # a leaf of (940 - 9) / 2 turns about a pin in the middle of its gap, 41.5 from the end
    assert pytest.approx(425.5) == 2 * 41.5 - 43 + (940 - 9) / 2 - 80


@pytest.mark.parametrize(
    ("room", "short"),
    [
        ("front: 1132, rear: 939", []),
        ("front: 1131.9, rear: 938.9", ["front", "rear"]),
        ("left: 0", ["left"]),
        # a side that is left out is not judged
        ("rear: 2000", []),
    ],
)
def test_too_little_floor_is_found_at_its_key(room: str, short: list[str]) -> None:
    failed = [each.path for each in room_checks(bench(room)) if not each.check.ok]
    assert failed == [("room", side) for side in short]


def test_the_edge_of_the_top_is_where_free_floor_begins() -> None:
    wide = changed(WITH_DOORS, ("overhang: 0", "overhang: 50"))
    assert needed(bench("front: 2000, rear: 2000, left: 2000", wide)) == pytest.approx(
        {"front": 1132 - 50, "rear": 939 - 50, "left": 425.5 - 50}
    )


def test_one_who_works_needs_floor_where_nothing_opens() -> None:
    open_bench = DEMO.replace("{totes: tote-145, count: 3}", "{open: share}")
    assert needed(bench("rear: 500, left: 0", open_bench)) == {"rear": 600, "left": 0}


def test_the_plan_says_each_side_and_draws_walls_as_far_away_as_they_are() -> None:
    figures, _ = compute(bench("front: 1000, rear: 1500, left: 300, right: 1200"))
    drawing = draw_room(figures, ruler_for(figures))
    said = " ".join(text.text for text in drawing.texts())
    for words in ("1000 free", "1500", "Left: 300 free, 425.5 needed", "too little", "enough"):
        assert words in said
    boxes = [box for _, box in drawing.text_boxes()]
    for index, one in enumerate(boxes):
        assert not any(
            one.left < other.right
            and other.left < one.right
            and one.top < other.bottom
            and other.top < one.bottom
            for other in boxes[index + 1 :]
        )
