"""Shelves on their cleats: the worked bay, and whether they are tilted in past the boards that are there."""

from __future__ import annotations

from functools import cache

import pytest

from generator.bench.fillings.shelf_boards import tilts_in
from generator.bench.fillings.shelves import ShelfFilling
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.shelves import Landing, lands
from tests.bench.benches import DEMO, changed, solved, span

BENCH = """spec: 1
title: Two shelves
bench: {length: %d, depth: 700, height: 900}
materials: {bar: {use: profile 40}}
zones: [{name: only, depth: share, bays: [{name: A, stack: [{shelf: 60}, {shelf: %d}]}]}]
"""


@cache
def bench_of(length: int, upper: int) -> Bench:
    return solved(BENCH % (length, upper))


def by_its_boards(bench: Bench, number: int) -> bool:
    """The room about a shelf, measured on the placed cleats, shelves, posts and tray."""
    shelves = bench.of(Role.SHELF)
    cleats = sorted({(each.box.z.low, each.box.z.high) for each in bench.of(Role.SHELF_CLEAT)})
    left, right = sorted(each.box.x.middle for each in bench.of(Role.END_PANEL))
    wall = bench.of(Role.END_PANEL)[0]
    recess = right - left - wall.thickness
    opening = bench.layout.bays[0].width
    ceiling = bench.layout.levels.base_top + bench.layout.levels.opening
    own, floor = cleats[number][1], shelves[number - 1].box.z.high if number else bench.layout.levels.base_top
    gap = cleats[number + 1][0] - own if number + 1 < len(cleats) else None
    cleat = bench.of(Role.SHELF_CLEAT)[0].thickness
    room = Landing(float(ceiling - own), float(ceiling - floor), None if gap is None else float(gap))
    return lands(shelves[number].length, shelves[number].thickness, opening, recess, cleat, room)


@pytest.mark.parametrize("length", [700, 1100])
def test_shelves_come_down_between_the_cleats_that_are_there(length: int) -> None:
    """The upper cleats are 40 high: they bar the lower shelf 40 mm earlier than the upper shelf alone would."""
    answers = []
    for upper in range(110, 420, 20):
        bench = bench_of(length, upper)
        lower, top = bench.storage.shelves
        assert tilts_in(bench, lower) == by_its_boards(bench, 0), upper
        assert tilts_in(bench, top) == by_its_boards(bench, 1), upper
        answers.append(tilts_in(bench, lower))
    # too near, it does not go in; far enough, it does; and nothing in between changes its mind
    assert answers == sorted(answers)
    assert {True, False} == set(answers)


def test_a_shelf_is_two_shorter_than_its_recess() -> None:
    """A bay of 940 and half of a bar of 40 less a panel of 12 on each side: 968 for a shelf of 966."""
    (fit,) = ShelfFilling().clearances(solved())
    assert (fit.nominal, [size.value for size in fit.sizes]) == (2, [968, 966])


def test_shelves_of_the_worked_bench_are_tilted_in() -> None:
    """966 x 18 through 940: 15.5 degrees and 275 of the 485 that there are."""
    bench = solved()
    assert all(tilts_in(bench, shelf) for shelf in bench.storage.shelves)


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
