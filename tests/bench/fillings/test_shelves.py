"""Shelves on their cleats: the worked bay."""

from __future__ import annotations

from generator.bench.role import Role
from tests.bench.benches import DEMO, changed, solved, span


def test_the_worked_shelves() -> None:
    """966 x 278; tops at 100 and 328, on cleats at 82 and 310."""
    shelves = [each for each in solved().storage.shelves if each.bay == "B1"]
    assert [(each.number, each.top, each.cleat_top, each.length, each.depth) for each in shelves] == [
        (1, 100, 82, 966, 278),
        (2, 328, 310, 966, 278),
    ]


def test_shelves_are_counted_from_below_however_they_are_written() -> None:
    text = changed(
        DEMO,
        (
            "B1, width: share, stack: [{shelf: 60}, {shelf: 288}]",
            "B1, width: share, stack: [{shelf: 288}, {shelf: 60}]",
        ),
    )
    assert solved(text).storage.shelves == solved().storage.shelves


def test_the_worked_boards_and_cleats() -> None:
    """Shelves 966 x 278 x 18 on cleats of 260 x 40 x 15, eight, their tops at 82 and 310; 1 of play all round."""
    bench = solved()
    shelves, cleats = bench.of(Role.SHELF), bench.of(Role.SHELF_CLEAT)
    assert (len(shelves), len(cleats)) == (4, 8)
    assert {span(each, "z") for each in shelves} == {(82, 100), (310, 328)}
    assert {span(each, "y") for each in shelves} == {(581, 859)}
    # 940 between the posts and 14 on either side, less 1 of play
    assert span(shelves[0], "x") == (40 - 14 + 1, 980 + 14 - 1)
    assert {(each.length, each.width, each.thickness) for each in cleats} == {(260, 40, 15)}
    assert {span(each, "z") for each in cleats} == {(42, 82), (270, 310)}
    assert {span(each, "y") for each in cleats} == {(590, 850)}
    assert [(span(each, "x"), each.place.wall) for each in cleats[:2]] == [
        ((26, 41), "left"),
        ((979, 994), "right"),
    ]
