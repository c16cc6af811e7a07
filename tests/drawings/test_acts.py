"""Small pictures of what is done beside putting pieces in: props, straps, orders."""

from __future__ import annotations

from itertools import combinations

import pytest

from generator.bench import acts
from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.extent import Extent
from generator.drawings.lettering import PAGE_WIDTH
from generator.drawings.shapes import Polyline, Text
from generator.drawings.step_props import draw_acts
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.drawings.step_pictures import figures

SPECS = ("demo", "starter", "samples/cart", "samples/joiner", "samples/desk", "samples/lumber")


def figures_of(name: str) -> Figures:
    """Of a shipped bench."""
    if "/" not in name:
        return figures(name)
    return compute(solve(read_spec_file(bundled("specs") / f"{name}.yml")))[0]


def drawn(done: Figures, step: Step) -> list[tuple[Drawing, Drawing]]:
    """The small pictures of a step, before and after its own."""
    both = (draw_acts(done, step, first=first) for first in (True, False))
    return [each for each in both if each]


@pytest.mark.parametrize("name", SPECS)
def test_every_act_is_shown_with_its_words_and_nothing_collides(name) -> None:
    done = figures_of(name)
    with_acts = [step for step in done.assembly.steps if step.acts]
    assert with_acts
    for step in with_acts:
        pictures = drawn(done, step)
        assert sum(len(wide.groups) for wide, _ in pictures) == len(step.acts), step.key
        for each in (picture for both in pictures for picture in both):
            sheet, boxes = Extent(0.0, 0.0, each.width, each.height), each.text_boxes()
            for text, box in boxes:
                assert sheet.contains(box), f"{each.id}: {text}"
            for (one, a), (other, b) in combinations(boxes, 2):
                assert not a.overlaps(b), f"{each.id}: {one}, {other}"
            said = " ".join(text for text, _ in boxes)
            first = each.id.removesuffix("-slim").endswith("-first")
            for act in step.acts:
                if (act.when == acts.FIRST) is first and "-slim" not in each.id:
                    assert all(word in said for word in act.words.split()), act
            assert each.width <= PAGE_WIDTH


@pytest.mark.parametrize("name", SPECS)
def test_what_is_drawn_of_an_act_stays_in_its_frame(name) -> None:
    done = figures_of(name)
    for step in done.assembly.steps:
        for wide, _ in drawn(done, step):
            for _, first, after in wide.groups:
                frame = wide.shapes[first].extent().grown(0.3)
                for shape in wide.shapes[first:after]:
                    assert frame.contains(shape.extent()), f"{wide.id}: {shape}"


def test_the_batten_that_goes_on_comes_off_before_the_first_piece_above_the_posts() -> None:
    for name in SPECS:
        done = figures_of(name)
        kinds = [(step.key, act.kind, act.when) for step in done.assembly.steps for act in step.acts]
        on = [n for n, (_, kind, _) in enumerate(kinds) if kind == acts.BATTEN_ON]
        off = [n for n, (_, kind, _) in enumerate(kinds) if kind == acts.BATTEN_OFF]
        assert len(on) == len(off), name
        for a, b in zip(on, off, strict=True):
            assert a < b and kinds[b][2] == acts.FIRST and kinds[b][0] in ("tray", "lid")


def test_screws_of_the_grid_are_numbered_from_the_corners_and_then_from_the_centre() -> None:
    """Each number is read off its place on paper: farther from the centre is later."""
    done = figures("demo")
    step = next(each for each in done.assembly.steps if each.key == "lid")
    ((wide, _),) = drawn(done, step)
    _, first, after = wide.groups[0]
    frame = wide.shapes[first].extent()
    numbers = [s for s in wide.shapes[first:after] if isinstance(s, Text) and s.text.isdigit()]
    assert len(numbers) == len(step.keys) == 11
    bars = [s.extent() for s in wide.shapes[first + 1 : after] if not isinstance(s, Text)]
    left, right = min(b.left for b in bars), max(b.right for b in bars)
    middle = ((left + right) / 2, sum(text.at[1] for text in numbers if text.text == "1") / 4)

    def far(text: Text) -> float:
        return ((text.at[0] - middle[0]) ** 2 + (text.at[1] - middle[1]) ** 2) ** 0.5

    assert frame.contains(numbers[0].extent())
    corners = [text for text in numbers if text.text == "1"]
    assert len(corners) == 4
    inner = sorted((text for text in numbers if text.text != "1"), key=far)
    assert [int(text.text) for text in inner] == sorted(int(text.text) for text in inner)
    assert min(map(far, corners)) > max(map(far, inner)) - 0.01


def test_a_bench_is_measured_between_what_is_fixed_on_both_sides_of_a_bay() -> None:
    """As many double arrows as one bay has heights."""
    done = figures("demo")
    step = next(each for each in done.assembly.steps if each.key == "slides")
    ((wide, _),) = drawn(done, step)
    _, first, after = wide.groups[0]
    tips = [s for s in wide.shapes[first:after] if isinstance(s, Polyline) and s.style == "arrow"]
    rows = {each.partition(".")[2] for each in (m.called for m in step.motions) if each.startswith("F1.")}
    assert len(tips) == 2 * len(rows) == 8


def test_cutting_shows_pockets_with_their_faces_and_threads_only_where_a_bench_has_them() -> None:
    """By the operations of its bars and the places that the step lists."""
    for name in SPECS:
        done = figures_of(name)
        bars, boards = (
            [act for step in done.assembly.steps if step.key == key for act in step.acts]
            for key in ("bars", "boards")
        )
        cut = [act for row in done.parts if row.is_bar for act in row.operations if act.thread]
        assert bool(cut) is (acts.TAP in [act.kind for act in bars]), name
        for act in bars:
            assert {each.thread for each in cut} & set(act.words.split())
        (walls,) = [step.places for step in done.assembly.steps if step.key == "boards"] or [()]
        for act in boards:
            if act.kind == acts.POCKETS:
                assert walls
                assert all(place.part in act.words and f"{place.face} face" in act.words for place in walls)
